"""Why a slot's next load and repetitions are what they are."""

from typing import Any

from django.http import Http404
from django.shortcuts import get_object_or_404
from django.utils.translation import gettext as _

from coaching.models import WeekSummary
from coaching.reads.evidence import evidence_of
from coaching.recompute.calendar import week_of
from coaching.recompute.targets import targets
from coaching.why.answer import Answer, Cell, Column, Figure, Table, logged, number, words
from coaching.why.body import report_table
from coaching.why.kept import SIDES
from coaching.why.links import Reader
from coaching.why.seen import seen_in
from coaching.why.weeks import said
from periodization.progression import SETTINGS
from periodization.progression.target import RULE
from periodization.rules import Rule
from periodization.units import from_kg
from programs.models import PlannedSlot
from programs.sentences import in_words, words_for
from programs.templatetags.loads import load_words


def target(reader: Reader, slot_id: str) -> Answer:
    """Answer for what a slot suggests; while its session is still to come it is worked out anew beside it."""
    if not slot_id.isdigit():
        raise Http404
    rows = PlannedSlot.objects.select_related("session", "exercise__equipment")
    slot = get_object_or_404(rows, session__client=reader.client, pk=int(slot_id))
    reason: dict[str, Any] = slot.target_reason or {}
    unit = "lb" if reader.unit == "lb" else "kg"
    load_again, reps_again = _again(reader, slot)
    exercise = slot.exercise
    load = slot.target_load_kg
    figures = [
        Figure(
            "load",
            _("load"),
            None if load is None else from_kg(load, unit),
            None if load_again is None else from_kg(load_again, unit),
            text="–" if load is None else load_words(load, reader.unit, exercise.load_kind, exercise.equipment.kind),
        ),
        Figure("reps", _("repetitions"), slot.target_reps, reps_again),
    ]
    found = evidence_of(reader.client, reason.get("evidence", ()))
    tables = [_plan_table(slot), set_table(reader, found.sets, unit)]
    if found.pains:
        tables.append(report_table(reader, found.pains))
    settings = SETTINGS.get(exercise.rep_unit, SETTINGS["reps"])
    sentence = (
        in_words(reason["code"], reason["params"], words_for(reader.unit, [slot.exercise_id]))
        if reason
        else _("No target has been worked out for this yet.")
    )
    return Answer(
        title=_("Next target: %(exercise)s, %(day)s") % {"exercise": exercise, "day": said(slot.session.date)},
        lead=[sentence],
        figures=figures if reason else [],
        tables=tables,
        rules=[Rule(reason.get("rule_id", RULE.id), reason.get("version", RULE.version), RULE.source)],
        method="progression",
        thresholds=[
            (_("repetitions up by"), str(settings.rep_step)),
            (_("repetitions up by at most, with effort to spare"), str(max(settings.rep_step, settings.most_reps_up))),
            (_("repetitions past the range at most, where no load fits"), str(settings.reps_past_top)),
            (_("load up by at most, of the load moved"), f"{settings.step_max * 100:g} %"),
            (_("days without the exercise that call for less"), str(settings.break_days)),
            (_("mean RIR under the prescribed that calls for less"), f"{settings.reduce_gap:g}"),
            (_("the same, twice in a row"), f"{settings.reduce_gap_twice:g}"),
        ],
        uncertainty=_(
            "A suggestion from the last sets alone; when anything needed is missing or doubtful it is never heavier "
            "than they "
            "were. The load is one that the equipment can make, so it is often lighter than the arithmetic."
        ),
    )


def _again(reader: Reader, slot: PlannedSlot) -> tuple[float | None, int | None]:
    """Work the target out anew; what lies outside the stretch that gets targets keeps the one it had."""
    today = reader.client.user.today()
    summary = WeekSummary.objects.filter(client=reader.client, week=week_of(today)).first()
    if summary is not None:
        seen = seen_in(reader, summary)
        found = targets(seen.log, seen.facts.exposures, seen.flags).get(slot.pk)
        if found is not None:
            return found[0], found[1]
    return slot.target_load_kg, slot.target_reps


def _plan_table(slot: PlannedSlot) -> Table:
    line = [
        Cell(said(slot.session.date, _("D j M")), slot.pk),
        number(slot.sets),
        number(slot.reps_min),
        number(slot.reps_max),
        number(slot.rir_min),
        number(slot.rir_max),
    ]
    columns = [
        Column("slot", _("Day")),
        Column("sets", _("Sets"), True),
        Column("reps_min", _("Repetitions, from"), True),
        Column("reps_max", _("to"), True),
        Column("rir_min", _("RIR, from"), True),
        Column("rir_max", _("to"), True),
    ]
    return Table("plan", _("Prescribed"), columns, [line])


def set_table(reader: Reader, sets: list[Any], unit: Any) -> Table:
    """List logged sets."""
    rows = [
        [
            Cell(said(one.session.date, _("D j M")), str(one.session_id), reader.session(one.session_id)),
            words(one.exercise),
            number(one.number),
            words(SIDES().get(one.side, one.side), one.side),
            logged(one.load_kg, unit, (one.load, one.unit)),
            number(one.reps),
            number(one.rir),
        ]
        for one in sets
    ]
    columns = [
        Column("session", _("Session")),
        Column("exercise", _("Exercise")),
        Column("number", _("Set"), True),
        Column("side", _("Side")),
        Column("load", _("Load (%(unit)s)") % {"unit": unit}, True),
        Column("reps", _("Repetitions"), True),
        Column("rir", _("RIR"), True),
    ]
    return Table("sets", _("The sets behind it"), columns, rows, _("None yet."))
