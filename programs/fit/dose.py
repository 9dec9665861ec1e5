"""How much, how hard, and from which load: training status, first sessions, known strength, a weaker side."""

from collections.abc import Mapping

from periodization.loads import at_or_below
from periodization.strength import load_for
from periodization.targets import DEFAULTS
from programs.document import Document
from programs.document.adapt import Change, slots_in
from programs.fit.match import Pool
from programs.fit.model import Choice, ClientFacts, Option, Proposal
from programs.fit.swaps import open_matches, said_of
from programs.services.ladders import description_in, ladder_of

# All CHOSEN. An exercise not logged for this long starts carefully, or from a known maximum with the larger margin.
LONG_AGO_DAYS = 84
CAREFUL_RIR = 2
NOVICE_RIR = 1
# A novice under this reserve gets one more: their reports of reserve are less sure.
NOVICE_LEAST_RIR = 2
MARGIN, MARGIN_LONG_AGO = 0.05, 0.10
RECENT_DAYS = 28
# A side difference counts from here, and only when its 90 % interval leaves out zero.
SIDE_PERCENT = 10.0
MOST_ONE_SIDED = 2


def status_proposals(
    document: Document, client: ClientFacts, written_for: str, choices: Mapping[str, Choice]
) -> list[Proposal]:
    """Return fewer sets and more reserve for someone less trained than the program was written for."""
    theirs, written = DEFAULTS[client.status]["normal"][1], DEFAULTS[written_for]["normal"][1]  # type: ignore[index]
    found = []
    params = {"status": client.status, "written_for": written_for}
    if theirs < written:
        found.append(_numbered("scale", "fit_status_sets", params, round(100 * theirs / written), (30, 120), choices))
    least = min((slot.rir[0] for slot in slots_in(document)), default=NOVICE_LEAST_RIR)
    if client.status == "novice" and written_for != "novice" and least < NOVICE_LEAST_RIR:
        found.append(_numbered("rir", "fit_status_rir", params, NOVICE_RIR, (0, 4), choices))
    return found


def _numbered(kind, reason, params, number, bounds, choices) -> Proposal:
    choice = choices.get(kind, Choice())
    value = number if choice.number is None else min(max(choice.number, bounds[0]), bounds[1])
    change = Change(kind, factor=value / 100) if kind == "scale" else Change(kind, rir=int(value))
    return Proposal(
        kind, change, reason, params, accepted=choice.accept, edited=value != number, number=value, bounds=bounds
    )


def careful_proposals(document: Document, client: ClientFacts, choices: Mapping[str, Choice]) -> list[Proposal]:
    """Return a first session with more reserve for what the client has not done for long, or never."""
    first: dict[int, str] = {}
    for slot in slots_in(document):
        first.setdefault(slot.exercise, slot.key)
    new = [pk for pk in first if client.done.get(pk, LONG_AGO_DAYS + 1) > LONG_AGO_DAYS and pk not in client.e1rm]
    if not new:
        return []
    choice = choices.get("careful", Choice())
    value = CAREFUL_RIR if choice.number is None else int(min(max(choice.number, 1), 6))
    change = Change("careful", slots=frozenset(first[pk] for pk in new), rir=value)
    return [
        Proposal(
            "careful",
            change,
            "fit_careful",
            {"exercises": new},
            accepted=choice.accept,
            edited=value != CAREFUL_RIR,
            number=value,
            bounds=(1, 6),
        )
    ]


def start_proposals(
    document: Document, client: ClientFacts, pool: Pool, formula: str, choices: Mapping[str, Choice]
) -> list[Proposal]:
    """Return the load to begin with, where a maximum is known: for the most repetitions with the most reserve that the
    first slot asks for, less a margin, on a load that the equipment makes. External loads only."""
    found, seen = [], set()
    for slot in slots_in(document):
        exercise = pool.exercises[slot.exercise]
        if slot.exercise in seen or slot.exercise not in client.e1rm or exercise.load_kind != "external":
            continue
        seen.add(slot.exercise)
        e1rm, days = client.e1rm[slot.exercise]
        margin = MARGIN if days <= RECENT_DAYS else MARGIN_LONG_AGO
        ladder_text = description_in(dict(exercise.ladder), exercise.ladder_lb, client.unit)  # type: ignore[arg-type]
        ladder = ladder_of(ladder_text, exercise.load_kind)
        load = at_or_below(ladder, load_for(e1rm, slot.reps[1], slot.rir[1], formula) * (1 - margin))
        if not load:
            continue
        name = f"start:{slot.exercise}"
        choice = choices.get(name, Choice())
        # A coach may go lighter, and up to what the maximum allows without the margin.
        most = load_for(e1rm, slot.reps[1], slot.rir[1], formula)
        value = load if choice.number is None else (at_or_below(ladder, min(choice.number, most)) or load)
        params = {"e1rm": round(e1rm, 1), "days": days, "margin": round(100 * margin), "load": round(value, 2)}
        found.append(
            Proposal(
                name,
                Change("start", slot.exercise, load_kg=value),
                "fit_start",
                params,
                exercise=slot.exercise,
                accepted=choice.accept,
                edited=value != load,
                number=value,
                bounds=(0.0, most),
            )
        )
    return found


def side_proposals(
    document: Document, client: ClientFacts, pool: Pool, choices: Mapping[str, Choice]
) -> list[Proposal]:
    """Return one-sided work where one side was clearly weaker: for the exercises that train most of the same heads."""
    apart = {
        pk: ends
        for pk, ends in sorted(client.sides.items())
        if pk in pool.exercises and abs(ends[1]) >= SIDE_PERCENT and ends[0] * ends[2] > 0
    }
    found: list[Proposal] = []
    for pk in dict.fromkeys(slot.exercise for slot in slots_in(document)):
        written = pool.exercises[pk]
        source = pk if pk in apart else next((one for one in apart if _same(pool, pk, one)), None)
        if source is None or len(found) == MOST_ONE_SIDED:
            continue
        percent = apart[source][1]
        params = {"percent": round(abs(percent)), "side": "left" if percent < 0 else "right", "exercise": source}
        options = [] if written.one_sided else [one for one in open_matches(pk, client, pool) if one.exercise.one_sided]
        options = [one for one in options if one.within][:4]
        if not written.one_sided and not options:
            continue
        choice = choices.get(f"one-side:{pk}", Choice())
        best = options[0].exercise.pk if options else None
        to = choice.to if choice.to in {one.exercise.pk for one in options} else best
        chosen = next((one for one in options if one.exercise.pk == to), None)
        found.append(
            Proposal(
                f"one-side:{pk}",
                Change("one-side", pk, to),
                "fit_side_swap" if to else "fit_side",
                params | said_of(chosen, pool, pk),
                exercise=pk,
                options=tuple(Option(one.exercise.pk, one.heads, one.long, one.within, one.harder) for one in options),
                accepted=choice.accept,
                edited=to != best,
            )
        )
    return found


def _same(pool: Pool, a: int, b: int) -> bool:
    return any(one.exercise.pk == b and one.within for one in pool.ranked(a))
