"""A session that must fit into fewer minutes: pairs first, then fewer sets."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from periodization.duration import whole_minutes
from programs.document import Day, Document, Slot
from programs.document.adapt import Change
from programs.document.pairs import LETTERS
from programs.fit.model import Choice, ClientFacts, ExerciseFit, Proposal
from programs.services.tally import day_minutes

# CHOSEN: no exercise is cut under two sets for time, and only slots with rest to fill are paired.
LEAST_SETS = 2
LEAST_REST_S = 60
SHARED = 0.5


@dataclass(frozen=True, slots=True)
class Shorter:
    """Places (from 0) of the slots to pair, sets to take off by place, and the minutes after that."""

    pairs: tuple[tuple[int, int], ...]
    less: Mapping[int, int]
    minutes: float


def shorten(day: Day, minutes: float, facts: Mapping[int, ExerciseFit], *, pairs: bool, sets: bool) -> Shorter:
    """Return what brings a day under `minutes`, or as near as it gets: the pair that saves most, again and again, then
    one set at a time from the slot that has most (of several the last of the day)."""
    slots = list(day.slots)
    paired: list[tuple[int, int]] = []
    less: dict[int, int] = {}
    now = _minutes(day, slots, facts)
    while pairs and now > minutes:
        tries = [(_minutes(day, _pair(slots, n), facts), n) for n in range(len(slots) - 1) if _fits(slots, n, facts)]
        best = min(tries, default=(now, -1))
        if best[0] > now - 0.5:
            break
        now, place = best
        slots = _pair(slots, place)
        paired.append((place, place + 1))
    while sets and now > minutes:
        long = [(slot.sets[1], place) for place, slot in enumerate(slots) if slot.sets[1] > LEAST_SETS]
        if not long:
            break
        place = max(long)[1]
        slot = slots[place]
        slots[place] = replace(slot, sets=(max(1, slot.sets[0] - 1), slot.sets[1] - 1))
        less[place] = less.get(place, 0) + 1
        now = _minutes(day, slots, facts)
    return Shorter(tuple(paired), less, now)


def _minutes(day: Day, slots: list[Slot], facts: Mapping[int, ExerciseFit]) -> float:
    return day_minutes(replace(day, slots=tuple(slots)), facts)  # type: ignore[arg-type]


def _fits(slots: list[Slot], place: int, facts: Mapping[int, ExerciseFit]) -> bool:
    """Say whether two neighbours can be alternated: both alone, with rest to fill, and not the same heads."""
    a, b = slots[place], slots[place + 1]
    if a.pair or b.pair or a.exercise == b.exercise or min(a.rest_s, b.rest_s) < LEAST_REST_S:
        return False
    ours, theirs = facts[a.exercise].credits, facts[b.exercise].credits
    return not any(credit >= SHARED and theirs.get(head, 0.0) >= SHARED for head, credit in ours.items())


def _pair(slots: list[Slot], place: int) -> list[Slot]:
    letter = next((one for one in reversed(LETTERS) if one not in {slot.pair for slot in slots}), "")
    return [replace(slot, pair=letter) if n in (place, place + 1) else slot for n, slot in enumerate(slots)]


def _looks(day: Day) -> tuple[object, ...]:
    """Return all that the minutes of a day, and what may be paired in it, come from."""
    return tuple((one.exercise, one.pair, one.sets, one.reps, one.rest_s, one.tempo) for one in day.slots)


def time_proposals(
    document: Document, client: ClientFacts, facts: Mapping[int, ExerciseFit], choices: Mapping[str, Choice]
) -> list[Proposal]:
    """Return pairs and then fewer sets, as far as the client's minutes ask for them."""
    if client.minutes is None:
        return []
    # Weeks of a block are much alike: each look of a day is timed once.
    alike = {_looks(day): day for block in document.blocks for week in block.weeks for day in week.days if day.slots}
    longest = max((day_minutes(day, facts) for day in alike.values()), default=0.0)  # type: ignore[arg-type]
    if longest <= client.minutes:
        return []
    pair, fewer = choices.get("pair", Choice()), choices.get("fewer", Choice())
    known: dict[tuple[object, ...], Shorter] = {}
    pairs: list[tuple[str, ...]] = []
    cut: dict[int, set[str]] = {}
    # How many there are in the week that has most: what a person can picture.
    most_pairs, most_cut, after = 0, dict[int, int](), 0.0
    for week in [week for block in document.blocks for week in block.weeks]:
        here, shorter = 0, dict[int, int]()
        for day in week.days:
            looks = _looks(day)
            if looks not in known:
                known[looks] = shorten(day, client.minutes, facts, pairs=pair.accept, sets=True)
            found = known[looks]
            pairs += [(day.slots[a].key, day.slots[b].key) for a, b in found.pairs]
            here += len(found.pairs)
            for place, number in found.less.items():
                cut.setdefault(number, set()).add(day.slots[place].key)
                shorter[number] = shorter.get(number, 0) + 1
            after = max(after, found.minutes)
        most_pairs = max(most_pairs, here)
        most_cut = {number: max(most_cut.get(number, 0), shorter.get(number, 0)) for number in {*most_cut, *shorter}}
    params = {"minutes": client.minutes, "before": whole_minutes(longest), "after": whole_minutes(after)}
    made = []
    if pairs or not pair.accept:
        said = {**params, "a_week": most_pairs}
        made.append(Proposal("pair", Change("pair", pairs=tuple(pairs)), "fit_pair", said, accepted=pair.accept))
    for number, keys in sorted(cut.items()):
        change = Change("fewer", slots=frozenset(keys), less=number)
        said = {**params, "a_week": most_cut[number]}
        name = f"fewer:{number}"
        made.append(Proposal(name, change, "fit_fewer", said, accepted=choices.get(name, fewer).accept))
    return made
