"""From a log to the rows that follow from it. No query and no clock in here."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any
from uuid import UUID

from accounts.models import Client
from coaching.recompute import body, check_ins, facts, kept, load_week, prompts, questions, targets, trends
from coaching.recompute.calendar import LOOKBACK, WEEK, as_of, last_day, week_of
from coaching.recompute.prompts import PromptData
from coaching.recompute.rows import Log
from coaching.recompute.strength import BothSides, SetEstimate, both_sides, estimate_sets, session_points
from coaching.recompute.urgency import urgency
from coaching.recompute.volume import WeekVolumes, aimed_groups, set_input, volume_inputs, volume_json, week_volumes
from periodization.flags import ClientHistory, Flag, WeekVolume, evaluate
from periodization.targets import TargetRange
from programs.services.targets import target_ranges_for

# By Monday: the questions beside the deload, as {id: (kind, the last day it is worth asking)}.
Others = dict[dt.date, dict[UUID, tuple[str, dt.date]]]


@dataclass(frozen=True)
class WeekData:
    """One week's row, flags and prompt."""

    week: dt.date
    as_of: dt.date
    volume: dict[str, Any]
    compliance: dict[str, Any]
    load: dict[str, Any]
    trends: dict[str, Any]
    check_ins: dict[str, Any]
    body: dict[str, Any]
    inputs: dict[str, Any]
    urgency: int
    urgency_reasons: list[dict[str, Any]]
    last_session_on: dt.date | None
    flags: tuple[Flag, ...]
    prompt: PromptData | None
    questions: tuple[PromptData, ...] = ()


@dataclass
class Derived:
    """Everything that one pass writes. `others` are the questions beside the deload by week: {id: (kind, last day)}."""

    weeks: list[WeekData] = field(default_factory=list)
    points: dict[tuple[UUID, int], SetEstimate] = field(default_factory=dict)
    sides: dict[tuple[UUID, int], BothSides] = field(default_factory=dict)
    targets: dict[int, Any] = field(default_factory=dict)
    asked: dict[dt.date, str] = field(default_factory=dict)
    others: Others = field(default_factory=dict)


def compute(
    client: Client, log: Log, weeks: Sequence[dt.date], asked: Mapping[dt.date, str], others: Others | None = None
) -> Derived:
    """Compute `weeks` (ascending Mondays) and, when the running one is among them, the targets that follow from it.

    `asked` maps the Mondays whose prompt is in the database to its kind, `others` to the questions beside it; the
    result's are what they are afterwards.
    """
    estimates = estimate_sets(log)
    points = session_points(estimates)
    result = Derived(
        asked={monday: kind for monday, kind in asked.items() if monday not in set(weeks)},
        others={monday: found for monday, found in (others or {}).items() if monday not in set(weeks)},
    )
    last: tuple[ClientHistory, tuple[Flag, ...]] | None = None
    for monday in weeks:
        until = last_day(monday, log.today)
        found = week_volumes(log, monday, as_of(monday, log.today))
        ranges = _ranges(client, log, found)
        seen = facts.history(log, estimates, monday, until, client.user.zone, _week_volumes(found, ranges, monday))
        flags = evaluate(seen, until)
        prompt = _prompt(log, monday, until, flags, seen, result.asked)
        if prompt:
            result.asked[monday] = prompt.inputs["kind"]
        seen_flags = shown(flags, prompt)
        row = _week(client, log, monday, until, found, ranges, seen_flags, prompt, points, estimates, seen, result)
        result.weeks.append(row)
        last = seen, flags
    mondays = {week.week for week in result.weeks}
    result.sides = both_sides(estimates)
    result.points = {key: one for key, one in points.items() if week_of(one.row.date) in mondays}
    if last is not None and week_of(log.today) in mondays:
        seen, flags = last
        result.targets = targets.changed(log, targets.targets(log, seen.exposures, flags))
    return result


def _ranges(client: Client, log: Log, found: WeekVolumes) -> dict[str, TargetRange]:
    """Return the range of each group that the week's exercises touch, even if too easily to count, or that the coach
    named for this client."""
    used = {row.exercise_id for row in (*found.planned_rows, *found.done_rows)}
    touched = {group for i in used for group in log.exercises[i].group_of_head.values()}
    return target_ranges_for(client, sorted({*touched, *client.priorities, *client.target_overrides}))


def _week_volumes(found: WeekVolumes, ranges: dict[str, TargetRange], monday: dt.date) -> tuple[WeekVolume, ...]:
    return tuple(
        WeekVolume(monday, group, sets, ranges[group].floor, ranges[group].ceiling)
        for group, sets in sorted(found.done.groups.items())
    )


def shown(flags: Sequence[Flag], prompt: PromptData | None) -> tuple[Flag, ...]:
    """Leave out the signs that are too weak to be shown by themselves, unless the week's question rests on them."""
    asked_about = prompt.inputs["signs"] if prompt else ()
    return tuple(flag for flag in flags if not flag.quiet or flag.family in asked_about)


def _prompt(
    log: Log,
    monday: dt.date,
    until: dt.date,
    flags: Sequence[Flag],
    seen: ClientHistory,
    asked: Mapping[dt.date, str],
) -> PromptData | None:
    """Ask at most once about the same days: while a week runs, last week's question about it is still on the table.

    New pain does not wait for the week's end.
    """
    found = prompts.deload_prompt(log, monday, until, flags, seen.exposures, log.decisions)
    # On its Sunday a week may ask about the next one: a coach who plans that evening should see it.
    running = until < monday + WEEK - dt.timedelta(days=1)
    # An accepted one leaves no plan to ask about, so its prompt is not found again: the answer stands for it.
    before = asked.get(monday - WEEK) or prompts.decided_kind(log.decisions, monday - WEEK)
    if found and running and before and (found.inputs["kind"] != "pain" or before == "pain"):
        return None
    return found


def _week(
    client: Client,
    log: Log,
    monday: dt.date,
    until: dt.date,
    found: WeekVolumes,
    ranges: dict[str, TargetRange],
    flags: tuple[Flag, ...],
    prompt: PromptData | None,
    points: dict[tuple[UUID, int], SetEstimate],
    estimates: dict[UUID, SetEstimate],
    seen: ClientHistory,
    so_far: Derived,
) -> WeekData:
    known = as_of(monday, log.today)
    aimed = aimed_groups(found.planned_rows, log.exercises) | {*client.priorities, *client.target_overrides}
    volume = volume_json(found, ranges, known < monday + WEEK, aimed)
    compliance = kept.compliance_json(log, found, known)
    days = [row.date for row in log.sessions if monday - LOOKBACK <= row.date <= until]
    open_kind = _open_prompt(log, monday, until, prompt, so_far.asked)
    deload = open_kind is not None or prompt is not None
    asked = questions.other_prompts(log, monday, until, flags, ranges, compliance, deload, seen.exposures)
    so_far.others[monday] = {one.id: (one.topic, one.last_date) for one in asked}
    total, parts = urgency(
        flags,
        [*([open_kind] if open_kind else []), *_open_questions(log, monday, until, so_far.others, asked)],
        volume,
        compliance,
        plan_ahead=any(until <= row.date < monday + 2 * WEEK for row in log.slots),
        trained_lately=any(day > until - 2 * WEEK for day in days),
    )
    return WeekData(
        week=monday,
        as_of=known,
        volume=volume,
        compliance=compliance,
        load=load_week.load_json(log, monday, until),
        trends=trends.trends_json(points, estimates.values(), monday, until),
        check_ins=check_ins.check_ins_json(seen.check_ins, monday),
        body=body.body_json(log, monday, until, client.user.zone),
        inputs=volume_inputs(found, log.exercises)
        | {"late": [set_input(row) for row in kept.late_rows(log, found, known)]},
        urgency=min(total, 32767),
        urgency_reasons=parts,
        last_session_on=max(days, default=None),
        flags=flags,
        prompt=prompt,
        questions=tuple(asked),
    )


def _open_questions(
    log: Log, monday: dt.date, until: dt.date, others: Others, asked: Sequence[prompts.PromptData]
) -> list[str]:
    """Return the topics of the questions beside the deload that wait in this week: its own (`asked`), and those of the
    last one that it does not ask again."""
    closed = {*prompts.answered(log.decisions)}.union(*(questions.asked_before(log.client_id, one) for one in asked))
    both = {**others.get(monday - WEEK, {}), **others.get(monday, {})}
    return sorted(topic for key, (topic, last) in both.items() if key not in closed and last >= until)


def _open_prompt(
    log: Log, monday: dt.date, until: dt.date, prompt: PromptData | None, asked: Mapping[dt.date, str]
) -> str | None:
    """Return the kind of the question that waits for the coach in this week, this week's own or the last one's."""
    answers = prompts.answered(log.decisions)
    if prompt and prompt.id not in answers:
        return prompt.kind
    before = prompts.prompt_id(log.client_id, monday - WEEK)
    still_open = any(
        row.performed_on is None and not row.is_deload and until <= row.date < monday + WEEK for row in log.slots
    )
    return prompts.KIND if monday - WEEK in asked and before not in answers and still_open else None
