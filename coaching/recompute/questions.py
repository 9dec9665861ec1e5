"""Questions beside the deload: to write to a client, to hold back, to exchange, to add sets; with concrete numbers.

Each is asked once: about the coming week when a week is over (or on its Sunday), and about pain in the week in which it
was first reported.
"""

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import Any
from uuid import UUID, uuid5

from coaching.recompute.calendar import WEEK
from coaching.recompute.ids import NAMESPACE
from coaching.recompute.prompts import PromptData
from coaching.recompute.rows import DecisionRow, Log, SlotRow
from coaching.recompute.trends import reason_json
from coaching.recompute.volume import begun
from periodization import questions as rules
from periodization.flags import Exposure, Flag
from periodization.progression import Outgrown, outgrown, smaller_range
from periodization.questions import GroupPlan, Question
from periodization.targets import TargetRange

MOST_SETS_A_SLOT = 6


def question_id(client_id: int, monday: dt.date, question: Question) -> UUID:
    """Return the same id after every rebuild."""
    subject = question.subjects[0] if question.kind == "swap" else ""
    if question.rule is rules.VARIANT:
        subject += "/variant"
    return _id(client_id, monday, question.kind, subject)


def asked_before(client_id: int, asked: PromptData) -> set[UUID]:
    """Return the ids that the same question has if the week before asked it too: who answers the newer one has answered
    both (coaching/reads/prompts.py)."""
    exercise = asked.proposal.get("exercise")
    subjects = (f"{exercise}", f"{exercise}/variant") if asked.kind == "swap" else ("",)
    return {_id(client_id, asked.week - WEEK, asked.kind, subject) for subject in subjects}


def _id(client_id: int, monday: dt.date, kind: str, subject: str) -> UUID:
    return uuid5(NAMESPACE, f"prompt/{client_id}/{monday.isoformat()}/{kind}/{subject}")


def other_prompts(
    log: Log,
    monday: dt.date,
    until: dt.date,
    flags: Sequence[Flag],
    ranges: Mapping[str, TargetRange],
    kept: Mapping[str, Any],
    deload: bool,
    exposures: Sequence[Exposure],
) -> list[PromptData]:
    """Return the questions of the week of `monday`, as far as `until` is known. `deload`: that is asked, or runs."""
    following = monday + WEEK
    ahead = [row for row in log.slots if until < row.date < following + WEEK and not begun(row, until)]
    coming = [row for row in ahead if following <= row.date]
    asked = [_swap(log, monday, question, ahead) for question in rules.ask_swap(flags, monday)]
    if until >= monday + WEEK - dt.timedelta(days=1):
        asked += [_contact(log, monday, until, flags, bool(ahead))]
        if not deload and not any(row.is_deload for row in coming):
            hold = _hold(log, monday, flags, coming)
            asked += [hold, _progress(log, monday, until, flags, coming, ranges, kept)]
            asked += _variants(log, monday, until, flags, ahead, exposures, hold.inputs["subjects"] if hold else [])
    return [one for one in asked if one and not _answered_lately(log.decisions, monday, one)]


def _contact(log: Log, monday: dt.date, until: dt.date, flags: Sequence[Flag], plan_ahead: bool) -> PromptData | None:
    last = max((row.date for row in log.sessions if row.date <= until), default=None)
    question = rules.ask_contact(flags, (until - last).days if last else None, plan_ahead)
    if question is None:
        return None
    return _data(log, monday, monday + 2 * WEEK - dt.timedelta(days=1), question, {"slots": []})


def _hold(log: Log, monday: dt.date, flags: Sequence[Flag], coming: Sequence[SlotRow]) -> PromptData | None:
    question = rules.ask_hold(flags)
    rows = [row for row in coming if question and str(row.exercise_id) in question.subjects]
    if question is None or not rows:
        return None
    slots = [_slot(row, rir_up=rules.DEFAULT.rir_up) for row in rows]
    return _data(log, monday, max(row.date for row in rows), question, {"slots": slots, "rir_up": rules.DEFAULT.rir_up})


def _swap(log: Log, monday: dt.date, question: Question, ahead: Sequence[SlotRow]) -> PromptData | None:
    rows = [row for row in ahead if str(row.exercise_id) == question.subjects[0]]
    if not rows:
        return None
    site = question.reasons[0].params["site"]
    stored = {
        "slots": [_slot(row) for row in rows],
        "exercise": int(question.subjects[0]),
        "site": site,
        "cause": "pain",
    }
    return _data(log, monday, max(row.date for row in rows), question, stored)


def _variants(
    log: Log,
    monday: dt.date,
    until: dt.date,
    flags: Sequence[Flag],
    ahead: Sequence[SlotRow],
    exposures: Sequence[Exposure],
    held: Sequence[str],
) -> list[PromptData]:
    """Ask about what was trained this week, is planned again, and fits no load any more."""
    done: dict[int, list[Exposure]] = {}
    for one in exposures:
        done.setdefault(int(one.exercise_id), []).append(one)
    found: dict[str, Outgrown] = {}
    for pk in {row.exercise_id for row in ahead} & done.keys():
        if one := outgrown(done[pk], log.exercises[pk].ladder, monday):
            found[str(pk)] = one
    return [
        _variant(log, monday, question, found[question.subjects[0]], ahead)
        for question in rules.ask_variant(flags, found, held)
    ]


def _variant(log: Log, monday: dt.date, question: Question, one: Outgrown, ahead: Sequence[SlotRow]) -> PromptData:
    """Return the question with its slots; of what is too hard, each with a smaller range where it has one."""
    pk = int(question.subjects[0])
    rows = [row for row in ahead if row.exercise_id == pk]
    slots = []
    for row in rows:
        slot = _slot(row) | {"reps_min": [row.reps_min] * 2, "reps_max": [row.reps_max] * 2}
        counted = log.exercises[pk].counted
        if one.way == "easier" and (less := smaller_range(row.reps_min, row.reps_max, one.fewest[-1], counted)):
            slot["smaller"] = list(less)
        slots.append(slot)
    stored = {"slots": slots, "exercise": pk, "cause": one.way}
    return _data(log, monday, max(row.date for row in rows), question, stored)


def _progress(
    log: Log,
    monday: dt.date,
    until: dt.date,
    flags: Sequence[Flag],
    coming: Sequence[SlotRow],
    ranges: Mapping[str, TargetRange],
    kept: Mapping[str, Any],
) -> PromptData | None:
    given = {row.id: _credits(log, row) for row in coming}
    planned: dict[str, float] = {}
    for row in coming:
        for group, credit in given[row.id].items():
            planned[group] = planned.get(group, 0.0) + row.sets * credit
    plans = [GroupPlan(slug, sets, ranges[slug].floor) for slug, sets in planned.items() if slug in ranges]
    this_week = (kept["sessions_due"], kept["sessions_done"])
    question = rules.ask_progress(flags, plans, this_week, _kept_before(log, monday, until), kept["mean_rir_gap"])
    if question is None:
        return None
    under = [plan for plan in plans if plan.group in question.subjects]
    added = rules.add_sets([(row.id, row.sets, given[row.id]) for row in coming], under, MOST_SETS_A_SLOT)
    rows = [row for row in coming if row.id in added]
    if not rows:
        return None
    slots = [_slot(row, sets=added[row.id]) for row in rows]
    return _data(log, monday, max(row.date for row in rows), question, {"slots": slots})


def _kept_before(log: Log, monday: dt.date, until: dt.date) -> tuple[int, int]:
    """Return how many sessions the week before `monday` had planned, and how many of them were done."""
    rows = [row for row in log.slots if monday - WEEK <= row.date < monday]
    return len({row.session_id for row in rows}), len({row.session_id for row in rows if begun(row, until)})


def _credits(log: Log, row: SlotRow) -> dict[str, float]:
    """Return what one set gives to each muscle group: the most that it gives to any head of it."""
    exercise = log.exercises[row.exercise_id]
    found: dict[str, float] = {}
    for head, credit in exercise.credits.items():
        if group := exercise.group_of_head.get(head):
            found[group] = max(found.get(group, 0.0), credit)
    return found


def _slot(row: SlotRow, *, sets: int = 0, rir_up: int = 0) -> dict[str, Any]:
    """Return a slot's numbers before and after, in the shape of a deload's; the load follows when it is recomputed."""
    return {
        "slot": row.id,
        "session": row.session_id,
        "date": row.date.isoformat(),
        "exercise": row.exercise_id,
        "sets": [row.sets, row.sets + sets],
        "rir_min": [row.rir_min, min(10, row.rir_min + rir_up)],
        "rir_max": [row.rir_max, min(10, row.rir_max + rir_up)],
        # What the plan says today would make an old week's question differ from its own rebuild.
        "load_kg": [None, None],
    }


def _data(log: Log, monday: dt.date, last: dt.date, question: Question, stored: dict[str, Any]) -> PromptData:
    sets = [sum(one["sets"][n] for one in stored["slots"]) for n in (0, 1)]
    return PromptData(
        question_id(log.client_id, monday, question),
        monday,
        last,
        question.kind,
        question.rule.id,
        question.rule.version,
        [reason_json(reason) for reason in question.reasons],
        {"week": (monday + WEEK).isoformat(), "kind": question.kind, "sets": sets, **stored},
        {
            "kind": question.kind,
            "subjects": list(question.subjects),
            "evidence": list(question.evidence),
            "thresholds": dict(question.thresholds),
        },
    )


def _answered_lately(decisions: Sequence[DecisionRow], monday: dt.date, asked: PromptData) -> bool:
    """Say whether a coach answered the same question lately; not this very one, which a rebuild must find again.

    What pain stops is asked about whatever was said of the exercise before.
    """
    return any(
        d.kind == asked.kind
        and (asked.proposal.get("cause") != "pain" or d.proposal.get("cause", "pain") == "pain")
        and d.prompt_id != asked.id
        and monday - rules.rest_weeks(d.kind, refused=d.answer == "refuse") * WEEK <= d.week <= monday
        and d.proposal.get("exercise") == asked.proposal.get("exercise")
        for d in decisions
    )
