"""Write what was computed over what was there: the same rows when run twice, and nothing of what is gone."""

import datetime as dt
from collections import Counter

from accounts.models import Client
from coaching.models import FlagRow, Prompt, StrengthPoint, WeekSummary
from coaching.recompute.calendar import WEEK
from coaching.recompute.compute import Derived, WeekData
from coaching.recompute.ids import flag_id
from coaching.recompute.strength import point_inputs
from periodization.flags import Flag
from programs.models import PlannedSlot

WEEK_FIELDS = (
    "as_of",
    "rules",
    "volume",
    "compliance",
    "load",
    "trends",
    "check_ins",
    "body",
    "inputs",
    "urgency",
    "urgency_reasons",
    "questions",
    "last_session_on",
)


def save(client: Client, derived: Derived, rules: str) -> None:
    """Replace the derived rows of the computed weeks, and set the targets that changed."""
    if not derived.weeks:
        return
    weeks = [data.week for data in derived.weeks]
    WeekSummary.objects.bulk_create(
        [_week(client, data, rules) for data in derived.weeks],
        update_conflicts=True,
        unique_fields=["client", "week"],
        update_fields=WEEK_FIELDS,
    )
    _save_points(client, derived, weeks)
    _save_flags(client, derived, weeks)
    _save_prompts(client, derived, weeks)
    _save_targets(derived)


def _week(client: Client, data: WeekData, rules: str) -> WeekSummary:
    values = {name: getattr(data, name) for name in WEEK_FIELDS if name not in ("rules", "questions")}
    asked = {str(one.id): [one.topic, one.last_date.isoformat()] for one in data.questions}
    return WeekSummary(client=client, week=data.week, rules=rules, questions=asked, **values)


def _save_points(client: Client, derived: Derived, weeks: list[dt.date]) -> None:
    # A run of weeks has no hole (runs_of), so one stretch of dates is all of it.
    StrengthPoint.objects.filter(client=client, date__gte=weeks[0], date__lt=weeks[-1] + WEEK).delete()
    StrengthPoint.objects.bulk_create(
        StrengthPoint(
            client=client,
            exercise_id=exercise_id,
            session_id=session_id,
            date=one.row.date,
            e1rm_kg=one.estimate.e1rm_kg,
            confidence=one.estimate.confidence,
            inputs=point_inputs(one, derived.sides.get((session_id, exercise_id))),
        )
        for (session_id, exercise_id), one in derived.points.items()
        if one.estimate is not None
    )


def _save_flags(client: Client, derived: Derived, weeks: list[dt.date]) -> None:
    FlagRow.objects.filter(client=client, week__in=weeks).delete()
    FlagRow.objects.bulk_create(row for data in derived.weeks for row in _flags(client, data))


def _flags(client: Client, data: WeekData) -> list[FlagRow]:
    seen: Counter[tuple[str, str, str]] = Counter()
    rows = []
    for flag in data.flags:
        key = (flag.rule_id, flag.subject_kind, flag.subject)
        rows.append(_flag(client, data.week, flag, seen[key]))
        seen[key] += 1
    return rows


def _flag(client: Client, week: dt.date, flag: Flag, occurrence: int) -> FlagRow:
    return FlagRow(
        id=flag_id(client.pk, week, flag, occurrence),
        client=client,
        week=week,
        rule_id=flag.rule_id,
        rule_version=flag.version,
        severity=flag.severity,
        subject_kind=flag.subject_kind,
        subject=flag.subject,
        opened_on=flag.opened_on,
        code=flag.code,
        params=dict(flag.params),
        clears_code=flag.clears_code,
        clears_params=dict(flag.clears_params),
        inputs={
            "evidence": list(flag.evidence_ids),
            "values": dict(flag.values),
            "thresholds": dict(flag.thresholds),
            "family": flag.family,
        },
    )


def _save_prompts(client: Client, derived: Derived, weeks: list[dt.date]) -> None:
    Prompt.objects.filter(client=client, week__in=weeks).delete()
    Prompt.objects.bulk_create(
        Prompt(
            id=asked.id,
            client=client,
            week=asked.week,
            last_date=asked.last_date,
            kind=asked.kind,
            rule_id=asked.rule_id,
            rule_version=asked.rule_version,
            reasons=asked.reasons,
            proposal=asked.proposal,
            inputs=asked.inputs,
        )
        for data in derived.weeks
        for asked in (*filter(None, [data.prompt]), *data.questions)
    )


def _save_targets(derived: Derived) -> None:
    rows = [
        PlannedSlot(pk=pk, target_load_kg=load, target_reps=reps, target_reason=reason)
        for pk, (load, reps, reason) in derived.targets.items()
    ]
    if rows:
        PlannedSlot.objects.bulk_update(rows, ["target_load_kg", "target_reps", "target_reason"])
