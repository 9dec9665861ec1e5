"""The e1RM of one exercise: a point a session, the trend with its range, and both sides where there are two."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.db.models import Count, Max
from django.utils.translation import gettext as _

from coaching.models import StrengthPoint, WeekSummary
from coaching.plots.ask import Ask
from coaching.plots.plot import Plot, Series
from logbook.models import SetLog
from periodization.units import from_kg
from programs.templatetags.loads import load_words, plain, typed_in


@dataclass(frozen=True)
class Strength:
    """`exercises` are (id, name, points), most trained first; `trend` is the last statement on the chosen one,
    and `trend_why` where its answer stands.

    `without`: the reason by id of each exercise that was trained and cannot be estimated from.
    """

    exercises: list[tuple[int, str, int]]
    chosen: int | None
    name: str
    trend: dict[str, Any] | None
    plots: list[Plot]
    without: dict[str, dict[str, Any]]
    trend_why: str = ""


def strength(ask: Ask, summaries: Sequence[WeekSummary]) -> Strength:
    """Return the plots of the exercise asked for, or of the most trained, in three queries."""
    rows = StrengthPoint.objects.filter(client=ask.client, date__gte=ask.first, date__lte=ask.end)
    counted = rows.values_list("exercise_id", "exercise__name").annotate(n=Count("pk"), last=Max("date"))
    exercises = [(pk, name, n) for pk, name, n, _last in counted.order_by("-n", "-last", "exercise__name")]
    known = {str(pk): pk for pk, _name, _n in exercises}
    chosen = known.get(ask.exercise, exercises[0][0] if exercises else None)
    newest = summaries[-1].trends if summaries else {}
    without = {key: one for key, one in newest.items() if not one["points"]}
    if chosen is None:
        return Strength([], None, "", None, [], without)
    name = next(name for pk, name, _n in exercises if pk == chosen)
    points = list(rows.filter(exercise=chosen).select_related("exercise__equipment").order_by("date", "pk"))
    levels = [(one.as_of, one.week, one.trends[str(chosen)]) for one in summaries if str(chosen) in one.trends]
    plots = [_trend_plot(ask, name, points, levels, chosen, _typed(points))]
    if any(point.inputs.get("sides") for point in points):
        plots.append(_side_plot(ask, name, points))
    newest_why = ask.why("trend", levels[-1][1], chosen) if levels else ""
    return Strength(exercises, chosen, name, levels[-1][2] if levels else None, plots, without, newest_why)


def _trend_plot(
    ask: Ask,
    name: str,
    points: Sequence[StrengthPoint],
    levels: Sequence[tuple[dt.date, dt.date, dict[str, Any]]],
    exercise: int,
    typed: dict[str, tuple[float, str]],
) -> Plot:
    """Return sessions and weeks' ends in one order; of two sessions of a day the later stands."""
    bands = {day: [_in(kg, ask.unit) for kg in level["level_kg"]] for day, _w, level in levels if level["level_kg"]}
    weeks = {day: ask.why("trend", week, exercise) for day, week, level in levels if level["level_kg"]}
    by_day = {point.date: point for point in points}
    days = sorted({*bands, *by_day})
    trends = [weeks.get(day) for day in days]
    return Plot(
        "strength",
        _("%(exercise)s: e1RM") % {"exercise": name},
        days,
        [
            Series(_("best set"), [_set_words(by_day.get(day), ask.unit, typed) for day in days]),
            Series(
                _("session's e1RM"),
                [_observed(by_day.get(day), ask.unit) for day in days],
                "points",
                ask.unit,
                why="e1rm",
            ),
            Series(
                _("level of the trend"),
                [bands[day][1] if day in bands else None for day in days],
                "line",
                ask.unit,
                why="level",
                links=trends,
            ),
            Series(
                _("90 % range, from"),
                [bands[day][0] if day in bands else None for day in days],
                "low",
                ask.unit,
                why="level_low",
                links=trends,
            ),
            Series(
                _("to"),
                [bands[day][2] if day in bands else None for day in days],
                "high",
                ask.unit,
                why="level_high",
                links=trends,
            ),
        ],
        note=_("The level is that at each week's end. An estimate is not a load to try."),
        links=[_why(ask, by_day.get(day)) for day in days],
        may_leave_out=True,
    )


def _side_plot(ask: Ask, name: str, points: Sequence[StrengthPoint]) -> Plot:
    found = [(point, point.inputs["sides"]) for point in points if point.inputs.get("sides")]
    return Plot(
        "sides",
        _("%(exercise)s: left against right") % {"exercise": name},
        [point.date for point, _sides in found],
        [
            Series(
                _("left"), [_in(sides["left"]["e1rm_kg"], ask.unit) for _p, sides in found], unit=ask.unit, why="left"
            ),
            Series(
                _("right"),
                [_in(sides["right"]["e1rm_kg"], ask.unit) for _p, sides in found],
                unit=ask.unit,
                why="right",
            ),
            Series(_("difference"), [sides["percent"][1] for _p, sides in found], "points", "%", why="difference"),
            Series(
                _("90 % range, from"), [sides["percent"][0] for _p, sides in found], "low", "%", why="difference_low"
            ),
            Series(_("to"), [sides["percent"][2] for _p, sides in found], "high", "%", why="difference_high"),
        ],
        from_zero=True,
        note=_("Minus: the left is weaker. A description: no size of it is known to be a danger."),
        links=[_why(ask, point) for point, _sides in found],
    )


def _in(kg: float, unit: str) -> float:
    return round(from_kg(kg, "lb" if unit == "lb" else "kg"), 1)


def _observed(point: StrengthPoint | None, unit: str) -> float | None:
    return None if point is None else _in(point.e1rm_kg, unit)


def _typed(points: Sequence[StrengthPoint]) -> dict[str, tuple[float, str]]:
    """Return load and unit, as they were typed, of each point's best set, by its id."""
    rows = SetLog.objects.filter(pk__in=[point.inputs["set"] for point in points])
    return {str(pk): (load, unit) for pk, load, unit in rows.values_list("pk", "load", "unit")}


def _set_words(point: StrengthPoint | None, unit: str, typed: dict[str, tuple[float, str]]) -> str | None:
    if point is None:
        return None
    kept, exercise = point.inputs, point.exercise
    text = typed_in(*typed[kept["set"]], unit) if kept["set"] in typed else ""
    load = load_words(kept["load_kg"], unit, exercise.load_kind, exercise.equipment.kind, text)
    load = load.replace("&nbsp;", "\u00a0")
    effort = "" if kept["rir"] is None else f"@{plain(kept['rir'])}"
    return f"{load} × {kept['reps']}{effort}" if load else f"{kept['reps']}{effort}"


def _why(ask: Ask, point: StrengthPoint | None) -> str | None:
    if point is None:
        return None
    return ask.why("strength", point.session_id, point.exercise_id)
