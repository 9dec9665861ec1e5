"""The entries that each flag rule looked at, as tables; by the family of the rule."""

import datetime as dt
from collections.abc import Callable
from dataclasses import replace

from django.utils.translation import gettext as _

from coaching.models import FlagRow
from coaching.why.answer import Cell, Column, Table, logged, number, words
from coaching.why.body import report_table
from coaching.why.check_in import answers_table
from coaching.why.links import Reader
from coaching.why.seen import Seen
from coaching.why.weeks import said
from logbook.models import PainReport, SetLog
from periodization.flags import RULES
from periodization.flags.expectation import Compared, by_exercise, compare, point_of
from periodization.flags.facts import Exposure
from periodization.flags.thresholds import DEFAULT
from periodization.units import from_kg
from programs.sentences import Words

Lister = Callable[[Reader, FlagRow, Seen, Words], list[Table]]


def entries(reader: Reader, row: FlagRow, seen: Seen, words_of: Words) -> list[Table]:
    """Return what the rule looked at; a rule that has no list of its own shows nothing."""
    lister = LISTERS.get(row.rule_id)
    rule = next((one for one in RULES if one.rule.id == row.rule_id), None)
    if lister is None or rule is None:
        return []
    since = seen.until - dt.timedelta(rule.window(DEFAULT))
    shown = replace(seen, facts=seen.facts.between(since, seen.until))
    return lister(reader, row, shown, words_of)


def _pain(reader: Reader, row: FlagRow, _seen: Seen, _words: Words) -> list[Table]:
    rows = PainReport.objects.filter(client=reader.client, pk__in=row.inputs["evidence"])
    return [report_table(reader, list(rows.select_related("exercise").order_by("-reported_at")))]


def _missed(_reader: Reader, row: FlagRow, seen: Seen, _words: Words) -> list[Table]:
    since = seen.until - dt.timedelta(row.inputs["thresholds"]["days"])
    rows = [
        [Cell(said(one.day, _("D j M")), one.day.isoformat()), Cell(_("done") if one.done else _("not done"), one.done)]
        for one in seen.facts.planned
        if since <= one.day < seen.until
    ]
    columns = [Column("day", _("Planned for")), Column("done", _("State"))]
    return [Table("planned", _("The planned sessions behind it"), columns, rows)]


def _check_ins(_reader: Reader, row: FlagRow, seen: Seen, _words: Words) -> list[Table]:
    limits = row.inputs["thresholds"]
    recent = [one for one in seen.facts.check_ins if one.id in row.inputs["evidence"]]
    cut = seen.until - dt.timedelta(limits["recent_days"] - 1)
    since = cut - dt.timedelta(limits["baseline_days"])
    before = [one for one in seen.facts.check_ins if since <= one.day < cut]
    return [
        answers_table("recent", _("The check-ins behind it"), recent[::-1]),
        answers_table("usual", _("The days that make the usual"), before[::-1]),
    ]


def _sore(_reader: Reader, row: FlagRow, seen: Seen, _words: Words) -> list[Table]:
    sore = [one for one in seen.facts.check_ins if one.id in row.inputs["evidence"]]
    trained = sorted({one.day for one in seen.facts.exposures if row.subject in one.groups})
    rows = []
    for one in sore:
        before = [day for day in trained if day < one.day]
        rows.append(
            [
                Cell(said(one.day, _("D j M")), one.day.isoformat()),
                Cell(said(before[-1], _("D j M")) if before else "–", before[-1].isoformat() if before else ""),
                number((one.day - before[-1]).days if before else None),
            ]
        )
    columns = [
        Column("day", _("Sore, and trained again, on")),
        Column("before", _("Trained before on")),
        Column("gap", _("Days between"), True),
    ]
    return [Table("sore", _("The check-ins behind it"), columns, rows)]


def _volume(reader: Reader, row: FlagRow, _seen: Seen, words_of: Words) -> list[Table]:
    values, share = row.inputs["values"], row.inputs["thresholds"]["share"]
    line = [
        Cell(
            words_of.groups.get(row.subject, row.subject),
            row.subject,
            reader.why("volume", row.week.isoformat(), row.subject),
        ),
        number(values["sets"]),
        number(values["ceiling"]),
        number(values["ceiling"] * share),
    ]
    columns = [
        Column("group", _("Muscles")),
        Column("sets", _("Hard sets done"), True),
        Column("ceiling", _("Upper end of the range"), True),
        Column("limit", _("Flagged over"), True),
    ]
    return [Table("volume", _("The week's volume"), columns, [line])]


def _own(row: FlagRow, seen: Seen) -> list[Exposure]:
    return by_exercise(seen.facts.exposures).get(row.subject, [])


def _floor(reader: Reader, row: FlagRow, seen: Seen, _words: Words) -> list[Table]:
    own = [one for one in _own(row, seen) if one.sets and one.reps_min is not None]
    return [_sets(reader, own[-row.inputs["thresholds"]["exposures"] :])]


def _effort(reader: Reader, row: FlagRow, seen: Seen, _words: Words) -> list[Table]:
    return [_sets(reader, _own(row, seen))]


def _sets(reader: Reader, exposures: list[Exposure]) -> Table:
    unit = "lb" if reader.unit == "lb" else "kg"
    # The facts know kilograms alone.
    logs = SetLog.objects.filter(pk__in=[each.set_id for one in exposures for each in one.sets])
    typed = {str(pk): (load, own) for pk, load, own in logs.values_list("pk", "load", "unit")}
    rows = [
        [
            Cell(said(one.day, _("D j M")), one.session_id, reader.session(one.session_id)),
            number(place),
            logged(each.load_kg, unit, typed.get(each.set_id)),
            number(each.reps),
            number(each.rir),
            number(one.reps_min),
        ]
        for one in reversed(exposures)
        for place, each in enumerate(one.sets, 1)
    ]
    columns = [
        Column("session", _("Session")),
        Column("place", _("Set"), True),
        Column("load", _("Load (%(unit)s)") % {"unit": unit}, True),
        Column("reps", _("Repetitions"), True),
        Column("rir", _("RIR"), True),
        Column("reps_min", _("At least prescribed"), True),
    ]
    return Table("sets", _("The sets behind it"), columns, rows)


def _under(reader: Reader, row: FlagRow, seen: Seen, words_of: Words) -> list[Table]:
    days = row.inputs["thresholds"]["recent_days"]
    own = _own(row, seen)
    compared = compare(own, seen.until, days, DEFAULT)[-row.inputs["thresholds"]["exposures_in_a_row"] :]
    cut = seen.until - dt.timedelta(days)
    before = [(one, found[0]) for one in own if one.day <= cut and (found := point_of(one))]
    unit = "lb" if reader.unit == "lb" else "kg"
    rows = [
        [
            Cell(said(one.day, _("D j M")), one.day.isoformat(), reader.session(one.session_id)),
            number(from_kg(point.e1rm_kg, unit), 1),
            number(point.sd, 3),
        ]
        for one, point in reversed(before)
    ]
    columns = [
        Column("day", _("Session")),
        Column("e1rm", _("Mean e1RM of the first sets (%(unit)s)") % {"unit": unit}, True),
        Column("sd", _("SD of its logarithm"), True),
    ]
    return [
        _compared(reader, compared, words_of),
        Table("before", _("The sessions before, that make the expectation"), columns, rows),
    ]


def _overall(reader: Reader, row: FlagRow, seen: Seen, words_of: Words) -> list[Table]:
    days = row.inputs["thresholds"]["recent_days"]
    groups = by_exercise(seen.facts.exposures).values()
    return [_compared(reader, [one for own in groups for one in compare(own, seen.until, days, DEFAULT)], words_of)]


def _compared(reader: Reader, compared: list[Compared], words_of: Words) -> Table:
    unit = "lb" if reader.unit == "lb" else "kg"
    ordered = sorted(compared, key=lambda one: (one.exposure.day, one.exposure.session_id), reverse=True)
    rows = [
        [
            Cell(
                said(one.exposure.day, _("D j M")),
                f"{one.exposure.day.isoformat()}/{one.exposure.session_id}",
                reader.session(one.exposure.session_id),
            ),
            words(words_of.exercises.get(one.exposure.exercise_id, "–"), one.exposure.exercise_id),
            number(from_kg(one.observed_kg, unit), 1),
            number(from_kg(one.expected_kg, unit), 1),
            number(from_kg(one.low_kg, unit), 1),
            number(one.sd, 3),
        ]
        for one in ordered
    ]
    columns = [
        Column("session", _("Session")),
        Column("exercise", _("Exercise")),
        Column("observed", _("Observed e1RM (%(unit)s)") % {"unit": unit}, True),
        Column("expected", _("Expected"), True),
        Column("low", _("Lower end"), True),
        Column("sd", _("SD of the logarithm"), True),
    ]
    note = _("The mean of the first three sets, with the repetition that people leave unnoticed added.")
    return Table("compared", _("Observed against expected"), columns, rows, note=note)


LISTERS: dict[str, Lister] = {
    "pain.report": _pain,
    "sessions.missed": _missed,
    "check_in.below_own_baseline": _check_ins,
    "soreness.into_next_exposure": _sore,
    "volume.far_over_range": _volume,
    "reps.under_floor": _floor,
    "effort.same_work_lower_rir": _effort,
    "performance.under_expected": _under,
    "performance.overall_under_expected": _overall,
}
