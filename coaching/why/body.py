"""Where a body mass and a count of pain reports come from."""

from typing import Any

from django.http import Http404
from django.shortcuts import get_object_or_404
from django.utils.translation import gettext as _

from coaching.models import WeekSummary
from coaching.recompute.calendar import week_of
from coaching.why.answer import Answer, Cell, Column, Figure, Table, number, words
from coaching.why.links import Reader
from coaching.why.weeks import day_of, said
from logbook.models import BodyMass, PainReport
from periodization.flags.pain import RULE as PAIN
from periodization.flags.thresholds import DEFAULT
from periodization.rules import Rule
from periodization.units import from_kg, to_kg

ENTERED = Rule("body.mass_as_entered", 1, "as entered; 1 lb is 0.45359237 kg by definition")


def mass(reader: Reader, day: str) -> Answer:
    """Answer for the body mass of a day: it is what was entered, in the reader's unit."""
    asked = day_of(day)
    summary = get_object_or_404(WeekSummary, client=reader.client, week=week_of(asked))
    kept = next((one for one in summary.body.get("masses", ()) if one["day"] == asked.isoformat()), None)
    if kept is None:
        raise Http404
    row = BodyMass.objects.filter(client=reader.client, pk=kept["id"]).first()
    unit = "lb" if reader.unit == "lb" else "kg"
    again = from_kg(to_kg(row.mass, "lb" if row.unit == "lb" else "kg"), unit) if row else None
    line = [Cell(said(asked), kept["id"]), number(row.mass if row else None), words(row.unit if row else "–")]
    columns = [Column("day", _("Day")), Column("mass", _("Entered"), True), Column("unit", _("Unit"))]
    return Answer(
        title=_("Body mass, %(day)s") % {"day": said(asked)},
        lead=[_("It is part of the load in exercises that move the body, for the next sixteen weeks at most.")],
        figures=[Figure("mass", _("body mass"), from_kg(kept["kg"], unit), again, _("as entered"), 1, unit)],
        tables=[Table("masses", _("The entry"), columns, [line])],
        rules=[ENTERED],
        method="equipment-loads",
        uncertainty=_("A body's mass moves by a kilogram or two in a day with food and water."),
    )


def pain(reader: Reader, first: str, last: str, site: str = "", side: str = "") -> Answer:
    """Answer for reports of pain in the weeks from Monday `first` to Monday `last`, of one site and side or of all."""
    start, end = day_of(first), day_of(last)
    rows = WeekSummary.objects.filter(client=reader.client, week__gte=start, week__lte=end).only("body")
    kept = [
        one
        for row in rows
        for one in row.body.get("pain", ())
        if (not site or one["site"] == site) and (not side or one["side"] == side)
    ]
    if not rows:
        raise Http404
    ids = [pk for one in kept for pk in one["ids"]]
    reports = list(
        PainReport.objects.filter(client=reader.client, pk__in=ids).select_related("exercise").order_by("-reported_at")
    )
    sites, sides = dict(PainReport.Site.choices), dict(PainReport.Side.choices)
    where = f"{sites.get(site, _('all sites'))}" + (f", {sides.get(side, side)}" if side else "")
    worst = max((one["worst"] for one in kept), default=None)
    return Answer(
        title=_("Pain reported: %(where)s, from %(first)s to %(last)s")
        % {"where": where, "first": said(start), "last": said(end)},
        lead=[
            _(
                "What a client reports, and no diagnosis. Pain that is over 5, rising, or with numbness or weakness "
                "belongs to a licensed clinician."
            ),
        ],
        figures=[
            Figure("worst", _("worst, 0 to 10"), worst, max((one.score for one in reports), default=None)),
            Figure("reports", _("reports"), sum(one["reports"] for one in kept), len(reports)),
        ],
        tables=[report_table(reader, reports)],
        rules=[PAIN],
        method="flags",
        thresholds=[
            (_("an exercise is stopped over"), str(DEFAULT.pain_stop_over)),
            (_("and watched from"), str(DEFAULT.pain_watch_from)),
            (_("weeks, from the Monday of each"), f"{said(start)} – {said(end)}"),
        ],
        uncertainty=_("A number that a person gives to a feeling: a change of one or two points is within its error."),
    )


def report_table(reader: Reader, reports: list[Any]) -> Table:
    """List reports of pain, as given."""
    sides = dict(PainReport.Side.choices)
    rows = [
        [
            Cell(
                said(one.reported_at.astimezone(reader.client.user.zone).date(), _("D j M Y")),
                str(one.pk),
                reader.session(one.session_id) if one.session_id else "",
            ),
            words(one.get_site_display(), one.site),
            words(sides.get(one.side, one.side), one.side),
            number(one.score),
            Cell(str(one.exercise) if one.exercise else "–", one.exercise_id or "-"),
        ]
        for one in reports
    ]
    columns = [
        Column("day", _("Reported")),
        Column("site", _("Where")),
        Column("side", _("Side")),
        Column("score", _("Pain, 0 to 10"), True),
        Column("exercise", _("Exercise")),
    ]
    return Table("reports", _("The reports"), columns, rows, _("None."))
