"""Why a trend has its level and its rate: the sessions it came from, their noise, and the settings."""

from dataclasses import asdict

from django.http import Http404
from django.utils.translation import gettext as _

from coaching.models import StrengthPoint
from coaching.recompute.calendar import LOOKBACK
from coaching.why.answer import Answer, Cell, Column, Figure, Table, number, shown
from coaching.why.links import Reader
from coaching.why.weeks import said, until, week_row
from periodization.rules import Rule
from periodization.trend import DEFAULT_SETTINGS, RULE, Interval, TrendPoint, fit_trend
from periodization.units import from_kg
from programs.models import Exercise
from programs.sentences import in_words, words_for


def trend(reader: Reader, monday: str, exercise_id: str) -> Answer:
    """Answer for the level and the weekly rate of an exercise as they stood at the end of a week."""
    summary = week_row(reader, monday)
    kept = summary.trends.get(exercise_id)
    if kept is None:
        raise Http404
    last = until(summary)
    points = list(
        StrengthPoint.objects.filter(
            client=reader.client, exercise=int(exercise_id), date__gte=summary.week - LOOKBACK, date__lte=last
        ).order_by("date", "session")
    )
    again = fit_trend([TrendPoint(one.date, one.e1rm_kg, one.inputs["sd"]) for one in points if one.inputs["sd"]], last)
    name = Exercise.objects.values_list("name", flat=True).get(pk=int(exercise_id))
    unit = "lb" if reader.unit == "lb" else "kg"
    level, rate = kept["level_kg"] or [None] * 3, kept["slope_percent_week"] or [None] * 3
    in_unit = [None if one is None else from_kg(one, unit) for one in level]
    now = [None if one is None else from_kg(one, unit) for one in _ends(again.level_kg)]
    slope = _ends(again.slope_percent_week)
    how = _("level of a local linear trend, from the points below, each with its SD")
    figures = [
        Figure("level", _("level of the trend"), in_unit[1], now[1], how, 1, unit),
        Figure(
            "level_low", _("90 % range, from"), in_unit[0], now[0], _("level ÷ e^(1.645 × SD of the level)"), 1, unit
        ),
        Figure(
            "level_high", _("90 % range, to"), in_unit[2], now[2], _("level × e^(1.645 × SD of the level)"), 1, unit
        ),
        Figure("slope", _("change a week"), rate[1], slope[1], _("slope of the same trend × 7 days"), 2, "%"),
        Figure("slope_low", _("90 % range of the change, from"), rate[0], slope[0], "", 2, "%"),
        Figure("slope_high", _("90 % range of the change, to"), rate[2], slope[2], "", 2, "%"),
        Figure("points", _("sessions it came from"), kept["points"], len(points)),
    ]
    return Answer(
        title=_("Trend: %(exercise)s, on %(day)s") % {"exercise": name, "day": said(last)},
        lead=[in_words(kept["code"], kept["params"], words_for(reader.unit, [exercise_id]))],
        figures=figures,
        tables=[_table(reader, points, unit)],
        rules=[Rule(*kept["rule"], RULE.source)],
        method="trend",
        thresholds=[
            (_("first day looked at"), said(summary.week - LOOKBACK)),
            (_("last day"), said(last)),
            *((label, shown(asdict(DEFAULT_SETTINGS)[key], 4)) for key, label in _settings()),
        ],
        uncertainty=_(
            "The range holds the true level 9 times in 10, if the assumptions above hold. The statement follows the "
            "range of "
            "the rate and never two single points: rising or falling only when the whole range lies on one side of "
            "zero."
        ),
    )


def _ends(interval: Interval | None) -> list[float | None]:
    return [None] * 3 if interval is None else [interval.low, interval.middle, interval.high]


def _settings() -> list[tuple[str, str]]:
    return [
        ("typical_error", _("typical error of a tested maximum (Grgic et al. 2020)")),
        ("level_sd_week", _("how far strength wanders in a week, SD (chosen)")),
        ("slope_sd_week", _("how far its weekly rate wanders, SD (chosen)")),
        ("slope_prior_sd", _("weekly rate believed possible before any point, SD (chosen)")),
        ("learning_days", _("days of learning after the first session (chosen)")),
        ("learning_sd", _("SD added in them (chosen)")),
        ("minimum_points", _("points needed to say more (chosen)")),
        ("minimum_days", _("days they must span (chosen)")),
        ("flat_limit", _("growth a week under which nothing grows that matters (chosen)")),
        ("outlier_z", _("SDs from which a point counts less (chosen)")),
        ("start_points", _("first points, held against their median (chosen)")),
        ("start_limit", _("how far over it, as a share, the first are not believed (chosen)")),
    ]


def _table(reader: Reader, points: list[StrengthPoint], unit: str) -> Table:
    rows = [
        [
            Cell(
                said(one.date, _("D j M Y")),
                one.date.isoformat(),
                reader.why("strength", one.session_id, one.exercise_id),
            ),
            number(from_kg(one.e1rm_kg, "lb" if unit == "lb" else "kg"), 1),
            number(one.inputs["sd"], 3),
        ]
        for one in points
    ]
    columns = [
        Column("day", _("Session")),
        Column("e1rm", _("e1RM (%(unit)s)") % {"unit": unit}, True),
        Column("sd", _("SD of its logarithm"), True),
    ]
    return Table(
        "points", _("The points it came from"), columns, rows, _("No set in these weeks can be estimated from.")
    )
