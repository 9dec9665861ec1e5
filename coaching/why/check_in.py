"""Why a check-in is called usual, below or above: the day's answers against the days before it."""

import datetime as dt
from collections.abc import Sequence
from statistics import median
from typing import Any

from django.http import Http404
from django.shortcuts import get_object_or_404
from django.utils.translation import gettext as _

from coaching.models import WeekSummary
from coaching.recompute.calendar import week_of
from coaching.why.answer import Answer, Cell, Column, Figure, Table, number, shown
from coaching.why.links import Reader
from coaching.why.weeks import day_of, said
from logbook.models import CheckIn
from periodization.readiness import DEFAULT, ITEMS, MAD_TO_SD, RULE, baseline, total
from periodization.readiness import CheckIn as Answers
from periodization.rules import Rule


def check_in(reader: Reader, day: str) -> Answer:
    """Answer for one day's check-in."""
    asked = day_of(day)
    summary = get_object_or_404(WeekSummary, client=reader.client, week=week_of(asked))
    kept = next((one for one in summary.check_ins.get("days", ()) if one["day"] == asked.isoformat()), None)
    if kept is None:
        raise Http404
    rows = CheckIn.objects.filter(
        client=reader.client, date__gte=asked - dt.timedelta(DEFAULT.days), date__lte=asked
    ).order_by("date")
    answers = [_answers(row) for row in rows]
    before, own = [one for one in answers if one.day < asked], [one for one in answers if one.day == asked]
    usual = baseline(before, asked)
    now = total(own[0]) if own else None
    spread = usual.spread if usual else None
    middle = usual.median if usual else None
    items = dict(usual.items) if usual else {}
    figures = [
        Figure(
            "total", _("together, 5 to 25"), kept["total"], now, " + ".join(shown(kept["items"][i][0]) for i in ITEMS)
        ),
        Figure("median", _("usual: median of the days before"), kept["median"], middle),
        Figure("spread", _("spread of one check-in, points"), kept["spread"], spread, _spread_words(usual, before)),
        Figure("usual_low", _("usual range, from"), _off(kept["median"], kept["spread"], -1), _off(middle, spread, -1)),
        Figure("usual_high", _("usual range, to"), _off(kept["median"], kept["spread"], 1), _off(middle, spread, 1)),
        Figure(
            "distance",
            _("distance from the usual, in spreads"),
            kept["distance"],
            usual.distance(own) if usual and own else None,
            f"({shown(kept['total'])} − {shown(kept['median'])}) / {shown(kept['spread'])}" if usual else "",
        ),
        Figure("count", _("check-ins that make the usual"), kept["count"], len(before)),
    ]
    labels = _labels()
    for name in ITEMS:
        value, off = kept["items"][name]
        figures.append(Figure(name, labels[name], value, getattr(own[0], name) if own else None))
        figures.append(
            Figure(
                f"usual_{name}",
                _("usual: %(item)s") % {"item": labels[name]},
                None if off is None else value - off,
                items.get(name),
                _("median of the days before"),
            )
        )
    return Answer(
        title=_("Check-in of %(day)s") % {"day": said(asked)},
        lead=[_("A day against this client's own days before it; there is no cut-off for everybody.")],
        figures=figures,
        tables=[
            answers_table("day", _("The day"), own),
            answers_table("usual", _("The days that make the usual"), before[::-1]),
        ],
        rules=[Rule(*summary.check_ins["rule"], RULE.source)],
        method="readiness",
        thresholds=[
            (_("days that make the usual"), str(DEFAULT.days)),
            (_("check-ins needed for the usual"), str(DEFAULT.minimum)),
            (_("spread of everybody, points (chosen)"), shown(DEFAULT.prior_spread)),
            (_("which weighs as many check-ins as (chosen)"), str(DEFAULT.prior_count)),
            (_("a day is below or above from spreads of (chosen)"), shown(DEFAULT.cut)),
        ],
        uncertainty=_("One day alone says little and flags nothing. The answers are feelings, in whole points."),
    )


def _labels() -> dict[str, str]:
    return {name: str(CheckIn._meta.get_field(name).verbose_name) for name in ITEMS}


def _answers(row: CheckIn) -> Answers:
    return Answers(row.date, row.fatigue, row.sleep, row.soreness, row.stress, row.mood)


def _off(middle: float | None, spread: float | None, sign: int) -> float | None:
    return None if middle is None or spread is None else middle + sign * spread


def _spread_words(usual: object, before: list[Answers]) -> str:
    if usual is None:
        return ""
    totals = [total(one) for one in before]
    middle = median(totals)
    mad = median(abs(one - middle) for one in totals)
    n, prior = len(totals), DEFAULT.prior_count
    own = f"({MAD_TO_SD} × {shown(mad)})²"
    return f"√(({n} × {own} + {prior} × {shown(DEFAULT.prior_spread)}²) / ({n} + {prior}))"


def answers_table(key: str, title: str, rows: Sequence[Any]) -> Table:
    """List check-ins; `rows` have a day and the five items."""
    labels = _labels()
    columns = [
        Column("day", _("Day")),
        *(Column(name, labels[name], True) for name in ITEMS),
        Column("total", _("Together"), True),
    ]
    lines = [
        [
            Cell(said(one.day, _("D j M")), one.day.isoformat()),
            *(number(getattr(one, name)) for name in ITEMS),
            number(total(one)),
        ]
        for one in rows
    ]
    return Table(key, title, columns, lines, _("None."), _("Each item 1 (worst) to 5 (best)."))
