"""Check-ins against the client's own usual, body mass, and reports of pain."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _

from coaching.models import WeekSummary
from coaching.plots.ask import Ask
from coaching.plots.plot import Plot, Series
from logbook.models import CheckIn, PainReport
from periodization.readiness import ITEMS
from periodization.units import from_kg

DAY = dt.date.fromisoformat


@dataclass(frozen=True)
class PainSite:
    """Reports at one site and side over the weeks shown; `why` is where their answer stands."""

    site: str
    side: str
    reports: int
    worst: int
    last: dt.date
    why: str


def check_in_plot(ask: Ask, summaries: Sequence[WeekSummary]) -> Plot:
    """Return each day's total with its usual range, and the five answers beside; no query."""
    days = [one for row in summaries for one in row.check_ins.get("days", ())]
    labels = {name: str(CheckIn._meta.get_field(name).verbose_name) for name in ITEMS}
    return Plot(
        "check-ins",
        _("Check-ins against their own usual") if ask.at_desk else _("Check-ins against your own usual"),
        [DAY(one["day"]) for one in days],
        [
            Series(_("total, 5 to 25"), [one["total"] for one in days], "points", digits=0, why="total"),
            Series(_("usual"), [one["median"] for one in days], "line", why="median"),
            Series(_("usual range, from"), [_off(one, -1) for one in days], "low", why="usual_low"),
            Series(_("to"), [_off(one, 1) for one in days], "high", why="usual_high"),
            *(Series(labels[name], [one["items"][name][0] for one in days], digits=0, why=name) for name in ITEMS),
        ],
        note=_("More is better. Usual: the median of the days before, with one spread on either side."),
        links=[ask.why("check-in", one["day"]) for one in days],
    )


def _off(one: dict[str, Any], sign: int) -> float | None:
    return None if one["median"] is None else one["median"] + sign * one["spread"]


def mass_plot(ask: Ask, summaries: Sequence[WeekSummary]) -> Plot:
    """Return body mass by day in the reader's unit; no query."""
    found = [one for row in summaries for one in row.body.get("masses", ())]
    unit = "lb" if ask.unit == "lb" else "kg"
    return Plot(
        "mass",
        _("Body mass"),
        [DAY(one["day"]) for one in found],
        [Series(_("body mass"), [round(from_kg(one["kg"], unit), 1) for one in found], "line", unit, why="mass")],
        links=[ask.why("mass", one["day"]) for one in found],
    )


def pain_plot(ask: Ask, summaries: Sequence[WeekSummary]) -> Plot:
    """Return the worst report of each week, 0 to 10, and how many there were; no query."""
    rows = [(row.week, row.body.get("pain", ())) for row in summaries]
    sites = dict(PainReport.Site.choices)
    return Plot(
        "pain",
        _("Pain reported, worst of the week"),
        [week for week, _found in rows],
        [
            Series(_("worst, 0 to 10"), [_worst(found) for _week, found in rows], "points", digits=0, why="worst"),
            Series(
                _("reports"),
                [float(sum(one["reports"] for one in found)) for _week, found in rows],
                digits=0,
                why="reports",
            ),
            Series(
                _("where"),
                [
                    ", ".join(sorted({str(sites.get(one["site"], one["site"])) for one in found}))
                    for _week, found in rows
                ],
            ),
        ],
        note=_(
            "What a client reports, and no diagnosis. Over 5 the exercise is stopped until a clinician has advised."
        ),
        weekly=True,
        from_zero=True,
        links=[ask.why("pain", week, week) for week, _found in rows],
    )


def _worst(found: Sequence[dict[str, Any]]) -> float | None:
    return max((float(one["worst"]) for one in found), default=None)


def pain_sites(ask: Ask, summaries: Sequence[WeekSummary]) -> list[PainSite]:
    """Return the sites reported in these weeks, the worst first; no query."""
    found: dict[tuple[str, str], list[dict[str, Any]]] = {}
    for row in summaries:
        for one in row.body.get("pain", ()):
            found.setdefault((one["site"], one["side"]), []).append(one)
    sites, sides = dict(PainReport.Site.choices), dict(PainReport.Side.choices)
    rows = [
        PainSite(
            str(sites.get(site, site)),
            str(sides.get(side, side)),
            sum(one["reports"] for one in same),
            max(one["worst"] for one in same),
            max(DAY(one["last"]) for one in same),
            ask.why("pain", ask.first, ask.last, site, side),
        )
        for (site, side), same in found.items()
    ]
    return sorted(rows, key=lambda row: (-row.worst, -row.reports, row.site, row.side))
