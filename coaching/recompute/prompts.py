"""Questions to the coach, with the change to the plan as concrete numbers."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any
from uuid import UUID, uuid5

from coaching.recompute.calendar import LOOKBACK, WEEK, week_of
from coaching.recompute.ids import NAMESPACE
from coaching.recompute.rows import DecisionRow, Log, SlotRow
from coaching.recompute.targets import target_json, target_of
from coaching.recompute.trends import reason_json
from coaching.recompute.volume import begun
from periodization.deload import DEFAULT, DeloadPrompt, WeekPrescription, propose_deload, reduced_sets
from periodization.flags import Exposure, Flag

KIND = "deload"
# A coach who said no to a deload that was only due by the calendar is not asked again at once.
ASK_AGAIN = 2 * WEEK


@dataclass(frozen=True)
class PromptData:
    """A Prompt as it will be saved."""

    id: UUID
    week: dt.date
    last_date: dt.date
    kind: str
    rule_id: str
    rule_version: int
    reasons: list[dict[str, Any]]
    proposal: dict[str, Any]
    inputs: dict[str, Any]

    @property
    def topic(self) -> str:
        """What the board calls it: the kind, but a swap for another cause than pain goes by its own name."""
        return topic_of(self.kind, self.proposal)


def topic_of(kind: str, proposal: Mapping[str, Any]) -> str:
    """Return the topic of a question: its kind, or "variant" for an exercise that fits no load any more."""
    return "variant" if kind == "swap" and proposal.get("cause", "pain") != "pain" else kind


def prompt_id(client_id: int, monday: dt.date) -> UUID:
    """Return the id of the week's prompt: the same after every rebuild, so that its decision finds it."""
    return uuid5(NAMESPACE, f"prompt/{client_id}/{monday.isoformat()}/{KIND}")


def deload_prompt(
    log: Log,
    monday: dt.date,
    as_of: dt.date,
    flags: Sequence[Flag],
    exposures: Sequence[Exposure],
    decisions: Sequence[DecisionRow],
) -> PromptData | None:
    """Return the question about the week after `monday`'s, or None.

    There is nothing to ask when that week has no open session, or is a deload already.
    """
    following = monday + WEEK
    rows = [
        row
        for row in log.slots
        if following <= row.date < following + WEEK and not begun(row, as_of) and not row.is_deload
    ]
    if not rows:
        return None
    week = WeekPrescription(
        sum(row.sets for row in rows), min(row.rir_min for row in rows), max(row.rir_max for row in rows)
    )
    weeks = weeks_since_rest(log, monday, as_of)
    found = propose_deload(flags, weeks, week=week)
    if found is None or (found.kind == "due" and _refused_lately(decisions, monday)):
        return None
    return PromptData(
        prompt_id(log.client_id, monday),
        monday,
        max(row.date for row in rows),
        KIND,
        found.rule_id,
        found.version,
        [reason_json(reason) for reason in found.reasons],
        proposal(log, rows, following, found, exposures, flags, as_of),
        {
            "kind": found.kind,
            "signs": list(found.signs),
            "evidence": [list(pair) for pair in found.evidence],
            "weeks_since_deload": weeks,
            "thresholds": dict(found.thresholds),
            "settings": asdict(DEFAULT),
        },
    )


def proposal(
    log: Log,
    rows: Sequence[SlotRow],
    week: dt.date,
    found: DeloadPrompt,
    exposures: Sequence[Exposure],
    flags: Sequence[Flag],
    as_of: dt.date,
) -> dict[str, Any]:
    """Return every slot's numbers before and after, and the shares that lead from one to the other."""
    slots = []
    for row in rows:
        usual = target_of(log, row, exposures, flags, as_of, None)
        reduced = target_of(log, row, exposures, flags, as_of, found.load_share)
        slots.append(
            {
                "slot": row.id,
                "session": row.session_id,
                "date": row.date.isoformat(),
                "exercise": row.exercise_id,
                "sets": [row.sets, reduced_sets(row.sets, found.sets_share)],
                "rir_min": [row.rir_min, min(10, row.rir_min + found.rir_up)],
                "rir_max": [row.rir_max, min(10, row.rir_max + found.rir_up)],
                "load_kg": [usual.load_kg, reduced.load_kg],
                "reps": reduced.reps,
                "reason": target_json(reduced),
            }
        )
    return {
        "week": week.isoformat(),
        "kind": found.kind,
        "sets_share": found.sets_share,
        "rir_up": found.rir_up,
        "load_share": found.load_share,
        "days": found.days,
        "sets": [sum(s["sets"][0] for s in slots), sum(s["sets"][1] for s in slots)],
        "slots": slots,
    }


def weeks_since_rest(log: Log, monday: dt.date, as_of: dt.date) -> float | None:
    """Count the weeks of training up to `as_of` since a deload or a week without training; None without training.

    Only the look back is seen: a longer stretch counts as the look back's length, which is past every threshold.
    """
    trained = {week_of(row.date) for row in log.sessions if row.date <= as_of}
    reduced = {week_of(row.date) for row in log.slots if row.is_deload and begun(row, as_of)}
    # The running week counts as training from its first day: a Monday without a session yet is no rest.
    first = monday if monday not in reduced else monday + WEEK
    while first - WEEK >= monday - LOOKBACK and first - WEEK in trained and first - WEEK not in reduced:
        first -= WEEK
    if first == monday and monday not in trained:
        return None
    return max(0.0, ((as_of - first).days + 1) / 7)


def _refused_lately(decisions: Sequence[DecisionRow], monday: dt.date) -> bool:
    return any(d.kind == KIND and d.answer == "refuse" and monday - ASK_AGAIN <= d.week < monday for d in decisions)


def decided_kind(decisions: Sequence[DecisionRow], monday: dt.date) -> str | None:
    """Return what the question of this week rested on (pain, signs, due), if a coach has answered it."""
    return next((d.proposal.get("kind") for d in decisions if d.kind == KIND and d.week == monday), None)


def answered(decisions: Sequence[DecisionRow]) -> Mapping[UUID, str]:
    """Return the standing answer by prompt."""
    return {d.prompt_id: d.answer for d in decisions}
