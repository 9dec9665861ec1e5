"""Planned against done: what WeekSummary.compliance keeps."""

import datetime as dt
from typing import Any

from coaching.recompute.adapters import done_sets, planned_slot
from coaching.recompute.rows import Log, SetRow
from coaching.recompute.volume import WeekVolumes, begun
from periodization.compliance import RULE, compliance


def compliance_json(log: Log, found: WeekVolumes, as_of: dt.date) -> dict[str, Any]:
    """Compare the week's plan with what was done of it by `as_of`; due is what was planned for the days before it.

    A set belongs to the plan through its slot, whatever the day on which it was done; what was done this week without
    a slot of this week is an extra.
    """
    session_of_slot = {row.id: row.session_id for row in found.planned_rows}
    rows = [*found.done_rows, *late_rows(log, found, as_of)]
    result = compliance(
        [planned_slot(row) for row in found.planned_rows],
        done_sets(rows, session_of_slot),
        found.planned.groups,
        found.done.groups,
    )
    due = {row.session_id for row in found.planned_rows if row.date < as_of or begun(row, as_of)}
    return {
        "sessions_planned": result.sessions_planned,
        "sessions_done": result.sessions_done,
        "sessions_due": len(due),
        "sets_planned": result.sets_planned,
        "sets_due": sum(row.sets for row in found.planned_rows if row.session_id in due),
        "sets_done": result.sets_done,
        "extra_sets": result.extra_sets,
        "effort_share": result.effort_share,
        "mean_rir_gap": result.mean_rir_gap,
        "effort_unknown": result.effort_unknown,
        "volume_share": result.volume_share,
        "rule": [RULE.id, RULE.version],
    }


def late_rows(log: Log, found: WeekVolumes, as_of: dt.date) -> list[SetRow]:
    """Return the sets done by `as_of` for slots of the week, but on a day of another."""
    slots, own = {row.id for row in found.planned_rows}, {row.id for row in found.done_rows}
    return [row for row in log.sets if row.date <= as_of and row.slot_id in slots and row.id not in own]
