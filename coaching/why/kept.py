"""Why so much of the plan counts as done, and how far from the prescribed effort."""

from collections.abc import Sequence

from django.utils.translation import gettext as _

from coaching.models import WeekSummary
from coaching.why.answer import Answer, Cell, Column, Figure, Table, number, shown, words
from coaching.why.kept_rows import KeptSet, KeptSlot, done_sets, kept_sets, kept_slots, late_sets
from coaching.why.links import Reader
from coaching.why.weeks import Names, names, said, week_row
from periodization.compliance import RULE, Compliance, compliance


def kept(reader: Reader, monday: str) -> Answer:
    """Answer for sessions, sets, effort and volume done of the week's plan."""
    summary = week_row(reader, monday)
    sets = [*kept_sets(summary.inputs), *late_sets(summary.inputs)]
    slots = kept_slots(summary.inputs)
    by_id = {one.id: one for one in slots}
    groups = summary.volume["groups"]
    planned = {slug: row["planned"] for slug, row in groups.items()}
    done = {slug: row["done"] for slug, row in groups.items()}
    found = compliance([one.planned for one in slots], done_sets(sets, by_id), planned, done)
    named = names(
        reader,
        {one.exercise for one in (*sets, *slots)},
        {one.session for one in sets},
        {one.session for one in slots},
    )
    return Answer(
        title=_("Done of the plan, week of %(week)s") % {"week": said(summary.week)},
        lead=[
            _("A session counts as done with one working set of it. A set belongs to the plan through its slot."),
            _("More sets than prescribed are extra, and cannot hide a gap elsewhere. Warm-up sets never count."),
        ],
        figures=_figures(summary, found, slots),
        tables=[
            _slot_table(summary, slots, named),
            _set_table(reader, sets, by_id, named),
            _group_table(reader, summary),
        ],
        rules=[RULE],
        method="compliance",
        thresholds=[
            (_("a set inside the prescribed RIR range has the distance"), "0"),
            (_("the week as known on"), said(summary.as_of)),
        ],
        uncertainty=_(
            "Counts are exact as far as the log is. Reported RIR errs by about one repetition in sets near failure "
            "and by "
            "more than two far from it (Hackett et al. 2017), so under half a repetition of mean distance nobody can "
            "tell."
        ),
    )


def _figures(summary: WeekSummary, found: Compliance, slots: Sequence[KeptSlot]) -> list[Figure]:
    row = summary.compliance
    due = [one for one in slots if one.due(summary.as_of)]
    due_sessions = len({one.session for one in due})
    share = 100 * row["sets_done"] / row["sets_planned"] if row["sets_planned"] else None
    again = 100 * found.sets_done / found.sets_planned if found.sets_planned else None
    return [
        Figure("sessions_planned", _("planned sessions"), row["sessions_planned"], found.sessions_planned),
        Figure("sessions_due", _("sessions due so far"), row["sessions_due"], due_sessions),
        Figure("sessions_done", _("planned sessions done"), row["sessions_done"], found.sessions_done),
        Figure("sets_planned", _("planned sets"), row["sets_planned"], found.sets_planned),
        Figure("sets_due", _("sets due so far"), row["sets_due"], sum(one.sets for one in slots if one in due)),
        Figure("sets_done", _("planned sets done"), row["sets_done"], found.sets_done),
        Figure("extra_sets", _("extra sets"), row["extra_sets"], found.extra_sets),
        Figure(
            "sets_share",
            _("sets done of the planned"),
            share,
            again,
            f"100 × {row['sets_done']} / {row['sets_planned']}",
            1,
            "%",
        ),
        Figure(
            "mean_rir_gap",
            _("mean distance from the prescribed RIR"),
            row["mean_rir_gap"],
            found.mean_rir_gap,
            _("mean of the distances below; minus: closer to failure"),
        ),
        Figure(
            "effort_share",
            _("sets inside the prescribed RIR"),
            _percent(row["effort_share"]),
            _percent(found.effort_share),
            _("100 × those with the distance 0 / those with a distance"),
            1,
            "%",
        ),
        Figure("effort_unknown", _("sets without RIR"), row["effort_unknown"], found.effort_unknown),
        Figure(
            "volume_share",
            _("volume done of the planned"),
            _percent(row["volume_share"]),
            _percent(found.volume_share),
            _("100 × sum of what was done of each group, its plan at most / sum of the plans"),
            1,
            "%",
        ),
    ]


def _percent(share: float | None) -> float | None:
    return None if share is None else 100 * share


def _slot_table(summary: WeekSummary, slots: Sequence[KeptSlot], named: Names) -> Table:
    rows = [
        [
            Cell(named.planned_day(one.session), one.session),
            Cell(named.exercise(one.exercise), one.id),
            number(one.sets),
            number(one.rir_min),
            number(one.rir_max),
            Cell(_("yes") if one.due(summary.as_of) else _("not yet"), one.due(summary.as_of)),
        ]
        for one in slots
    ]
    columns = [
        Column("session", _("Day")),
        Column("slot", _("Exercise")),
        Column("sets", _("Sets"), True),
        Column("rir_min", _("RIR, from"), True),
        Column("rir_max", _("to"), True),
        Column("due", _("Due")),
    ]
    return Table("slots", _("What was planned"), columns, rows, _("Nothing was planned."))


def _set_table(reader: Reader, sets: Sequence[KeptSet], slots: dict[int, KeptSlot], named: Names) -> Table:
    rows = [
        [
            Cell(named.session(one.session), one.session, reader.session(one.session)),
            Cell(named.exercise(one.exercise), one.exercise),
            Cell(_("planned") if one.slot in slots else _("extra"), one.slot if one.slot in slots else "-"),
            number(one.number),
            words(SIDES().get(one.side, one.side), one.side),
            Cell(_("warm-up") if one.warm_up else _("working"), one.warm_up),
            number(one.rir),
            number(_distance(one, slots.get(one.slot) if one.slot is not None else None)),
        ]
        for one in sets
    ]
    columns = [
        Column("session", _("Session")),
        Column("exercise", _("Exercise")),
        Column("slot", _("Slot")),
        Column("number", _("Set"), True),
        Column("side", _("Side")),
        Column("warm_up", _("Kind")),
        Column("rir", _("RIR"), True),
        Column("distance", _("Distance"), True),
    ]
    note = _("The two sides of a one-sided set are one set, at the harder side's RIR.")
    return Table("sets", _("What was done"), columns, rows, _("Nothing was done."), note)


def SIDES() -> dict[str, str]:
    return {"both": _("both"), "left": _("left"), "right": _("right")}


def _distance(one: KeptSet, slot: KeptSlot | None) -> float | None:
    if slot is None or one.rir is None or one.warm_up:
        return None
    return min(0.0, one.rir - slot.rir_min) + max(0.0, one.rir - slot.rir_max)


def _group_table(reader: Reader, summary: WeekSummary) -> Table:
    rows = [
        [
            Cell(slug.replace("-", " "), slug, reader.why("volume", summary.week.isoformat(), slug)),
            number(row["planned"]),
            number(row["done"]),
            Cell(shown(min(row["planned"], row["done"])), min(row["planned"], row["done"])),
        ]
        for slug, row in summary.volume["groups"].items()
        if row["planned"]
    ]
    columns = [
        Column("group", _("Muscles")),
        Column("planned", _("Planned"), True),
        Column("done", _("Done"), True),
        Column("kept", _("Done, plan at most"), True),
    ]
    return Table("groups", _("Volume, hard sets"), columns, rows, _("No muscle was planned."))
