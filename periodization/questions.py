"""What else to ask a coach about a client: to write to them, to hold an exercise back or exchange it, or to add sets.

Each rule takes plain values and returns questions; none of them changes anything, and none is a diagnosis.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from periodization.flags.flag import Flag
from periodization.progression.outgrown import DEFAULT as OUTGROWN
from periodization.progression.outgrown import Outgrown
from periodization.rules import Filling, Param, Reason, Rule

CONTACT = Rule("question.contact", 1, "days and counts chosen")
HOLD = Rule("question.hold", 1, "two signs on one exercise; chosen")
SWAP = Rule("question.swap", 2, "follows the stop of pain.report; pain is no training sign")
VARIANT = Rule("question.variant", 1, "no load fits any more; common practice, no source; counts chosen")
PROGRESS = Rule("question.progress", 2, "volume under the range while all is kept; shares chosen")
RULES = (CONTACT, HOLD, SWAP, VARIANT, PROGRESS)

Kind = Literal["contact", "hold", "swap", "progress"]


@dataclass(frozen=True, slots=True)
class QuestionSettings:
    """Chosen: no source gives any of these numbers.

    `silent_days` without a session, while sessions are planned, ask for a word with the client. `signs` flags of
    different rules on one exercise hold it back by `rir_up`. Sets are added when `kept_share` of the due sessions were
    done in this week and in the one before, effort was at most `harder_gap` repetitions harder than prescribed, and
    nothing asks for less: one set a slot, and at most `most_sets` a muscle group.
    """

    silent_days: int = 14
    signs: int = 2
    rir_up: int = 1
    kept_share: float = 0.9
    harder_gap: float = 0.5
    most_sets: int = 2


DEFAULT = QuestionSettings()
# Weeks for which whoever answered is not asked the same again. Chosen. A plan under its floor stays there: after a no
# to more sets it is meant so, for about a block.
REST_WEEKS: dict[str, int] = {"contact": 2, "hold": 2, "progress": 3, "swap": 4}
REST_WEEKS_AFTER_NO: dict[str, int] = {"progress": 6}


@dataclass(frozen=True, slots=True)
class Question:
    """`subjects` are exercise ids (hold, swap), group slugs (progress) or nothing (contact)."""

    kind: Kind
    rule: Rule
    reasons: tuple[Reason, ...]
    subjects: tuple[str, ...] = ()
    evidence: tuple[str, ...] = ()
    thresholds: Mapping[str, Param] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class GroupPlan:
    """What next week plans for a muscle group, in fractional hard sets, and the floor of its range."""

    group: str
    planned: float
    floor: float


def rest_weeks(kind: str, *, refused: bool) -> int:
    """Return for how many weeks a question of this kind is not asked again after an answer."""
    usual = REST_WEEKS[kind]
    return REST_WEEKS_AFTER_NO.get(kind, usual) if refused else usual


def ask_contact(
    flags: Sequence[Flag], silent_days: int | None, plan_ahead: bool, settings: QuestionSettings = DEFAULT
) -> Question | None:
    """Ask for a word with a client who misses what is planned.

    `silent_days` are the days since the last session; None: there was none yet.
    """
    missed = [f for f in flags if f.family == "attendance" and f.severity == "act"]
    silent = plan_ahead and silent_days is not None and silent_days >= settings.silent_days
    if not (missed or silent):
        return None
    reasons = [Reason(f.code, _plain(f.params)) for f in missed]
    if silent and silent_days is not None:
        reasons.append(Reason("contact_silent", {"days": silent_days}))
    evidence = tuple(i for f in missed for i in f.evidence_ids)
    return Question("contact", CONTACT, tuple(reasons), (), evidence, {"silent_days": settings.silent_days})


def _plain(params: Mapping[str, Filling]) -> dict[str, Param]:
    """Return the params that are single values: a reason holds no lists."""
    return {key: value for key, value in params.items() if not isinstance(value, tuple)}


def ask_hold(flags: Sequence[Flag], settings: QuestionSettings = DEFAULT) -> Question | None:
    """Ask to hold back exercises on which several signs of performance stand together."""
    by_exercise: dict[str, dict[str, Flag]] = {}
    for flag in flags:
        if flag.family == "performance" and flag.subject_kind == "exercise":
            by_exercise.setdefault(flag.subject, {})[flag.rule_id] = flag
    held = {exercise: found for exercise, found in sorted(by_exercise.items()) if len(found) >= settings.signs}
    if not held:
        return None
    reasons = tuple(
        Reason("hold_signs", {"exercise": exercise, "count": len(found)}) for exercise, found in held.items()
    )
    evidence = tuple(sorted({i for found in held.values() for f in found.values() for i in f.evidence_ids}))
    return Question("hold", HOLD, reasons, tuple(held), evidence, {"signs": settings.signs, "rir_up": settings.rir_up})


def ask_swap(flags: Sequence[Flag], since: date) -> tuple[Question, ...]:
    """Ask, one exercise at a time, to exchange what reports of pain have stopped since a day.

    That counts from the report that stops the exercise, not from an earlier and milder one: pain that grows over weeks
    is asked about when it has grown.
    """
    questions = []
    for flag in flags:
        if flag.family != "pain" or flag.severity != "stop":
            continue
        for exercise, day in zip(flag.stopped, flag.stopped_on, strict=True):
            if day < since:
                continue
            params = _plain({"exercise": exercise, "site": flag.params["site"], "score": flag.params["score"]})
            reasons = (Reason("swap_pain", params), Reason("swap_no_diagnosis"))
            questions.append(Question("swap", SWAP, reasons, (exercise,), flag.evidence_ids))
    return tuple(questions)


def ask_variant(flags: Sequence[Flag], found: Mapping[str, Outgrown], held: Sequence[str] = ()) -> tuple[Question, ...]:
    """Ask, one exercise at a time, for a variant of what has become too hard or too easy for every load there is.

    `found` by exercise id. Not for what pain stopped, nor for what is to be held back (`held`): then it is not the
    exercise that is too hard.
    """
    left_out = {exercise for flag in flags for exercise in flag.stopped} | set(held)
    questions = []
    for exercise, one in sorted(found.items()):
        if exercise in left_out:
            continue
        params: dict[str, Param] = {
            "exercise": exercise,
            "count": one.sessions,
            "fewest": one.fewest[-1],
            "bound": one.bound,
        }
        thresholds: dict[str, Param] = {"sessions_under": OUTGROWN.under, "sessions_over": OUTGROWN.over}
        questions.append(
            Question("swap", VARIANT, (Reason(f"variant_{one.way}", params),), (exercise,), one.evidence, thresholds)
        )
    return tuple(questions)


def ask_progress(
    flags: Sequence[Flag],
    plans: Sequence[GroupPlan],
    kept: tuple[int, int],
    kept_before: tuple[int, int],
    mean_rir_gap: float | None,
    settings: QuestionSettings = DEFAULT,
) -> Question | None:
    """Ask to add sets for groups planned under their floor next week, if two weeks in a row were kept and nothing asks
    for less.

    `kept` and `kept_before`: the sessions due in this week and in the one before, and how many of them were done.
    `mean_rir_gap`: RIR done less RIR prescribed, negative when harder; None: not reported, which never asks for more.
    """
    under = sorted((p for p in plans if 0 < p.planned < p.floor), key=lambda p: p.group)
    calm = all(f.severity == "watch" and f.family not in ("check_in", "soreness", "pain") for f in flags)
    both = all(due > 0 and done >= settings.kept_share * due for due, done in (kept, kept_before))
    if not (under and calm and both) or mean_rir_gap is None or mean_rir_gap < -settings.harder_gap:
        return None
    reasons = tuple(
        Reason("progress_under", {"group": p.group, "planned": round(p.planned, 1), "floor": p.floor}) for p in under
    )
    kept_reasons = (
        Reason("progress_kept", {"done": kept[1], "due": kept[0]}),
        Reason("progress_kept_before", {"done": kept_before[1], "due": kept_before[0]}),
    )
    thresholds: dict[str, Param] = {"kept_share": settings.kept_share, "harder_gap": settings.harder_gap}
    return Question("progress", PROGRESS, (*kept_reasons, *reasons), tuple(p.group for p in under), (), thresholds)


def add_sets(
    slots: Sequence[tuple[int, int, Mapping[str, float]]],
    plans: Sequence[GroupPlan],
    most_sets_a_slot: int,
    settings: QuestionSettings = DEFAULT,
) -> dict[int, int]:
    """Return how many sets to add to which slot: {slot id: 1}.

    `slots`: (id, sets planned, {group: credit of one set}). Group by group, by name, one set goes to the slot that
    gives the group most, the one with the fewest sets first, until the floor is reached, `most_sets` are added or no
    slot with a full credit is left below `most_sets_a_slot`. What a set gives to other groups counts for them too.
    """
    have = {p.group: p.planned for p in plans}
    added: dict[int, int] = {}
    for plan in sorted(plans, key=lambda p: p.group):
        for _ in range(settings.most_sets):
            if have[plan.group] >= plan.floor:
                break
            fit = [
                (-credits.get(plan.group, 0.0), sets, slot)
                for slot, sets, credits in slots
                if credits.get(plan.group, 0.0) >= 1 and slot not in added and sets < most_sets_a_slot
            ]
            if not fit:
                break
            chosen = min(fit)[2]
            added[chosen] = 1
            given = next(credits for slot, _, credits in slots if slot == chosen)
            for group, credit in given.items():
                if group in have:
                    have[group] += credit
    return added
