"""What was done of the plan, how hard, and the session load, week by week."""

from collections.abc import Sequence
from typing import Any

from django.utils.translation import gettext as _

from coaching.models import WeekSummary
from coaching.plots.ask import Ask
from coaching.plots.plot import Plot, Series


def session_plots(ask: Ask, summaries: Sequence[WeekSummary]) -> list[Plot]:
    """Return compliance, effort and session load; no query."""
    days = [one.week for one in summaries]
    kept = [one.compliance for one in summaries]
    loads = [one.load for one in summaries]
    kept_links = [ask.why("kept", day) for day in days]
    return [
        Plot(
            "compliance",
            _("Done of the plan"),
            days,
            [
                Series(
                    _("sets done of the planned"),
                    [_share(row["sets_done"], row["sets_planned"]) for row in kept],
                    "bars",
                    "%",
                    0,
                    why="sets_share",
                ),
                Series(_("planned sessions"), _all(kept, "sessions_planned"), digits=0, why="sessions_planned"),
                Series(_("done sessions"), _all(kept, "sessions_done"), digits=0, why="sessions_done"),
                Series(_("planned sets"), _all(kept, "sets_planned"), digits=0, why="sets_planned"),
                Series(_("done sets"), _all(kept, "sets_done"), digits=0, why="sets_done"),
                Series(_("extra sets"), _all(kept, "extra_sets"), digits=0, why="extra_sets"),
                Series(
                    _("volume done of the planned"),
                    [_percent(row["volume_share"]) for row in kept],
                    "open",
                    "%",
                    0,
                    "volume_share",
                ),
                Series(_("remark"), [_remark(one) for one in summaries]),
            ],
            note=_("Volume: hard sets against those planned; a set too far from failure does not count."),
            weekly=True,
            from_zero=True,
            links=kept_links,
        ),
        Plot(
            "effort",
            _("Effort: distance from the prescribed RIR"),
            days,
            [
                Series(_("mean distance"), _all(kept, "mean_rir_gap"), "points", "RIR", 2, "mean_rir_gap"),
                Series(
                    _("sets inside the range"),
                    [_percent(row["effort_share"]) for row in kept],
                    unit="%",
                    digits=0,
                    why="effort_share",
                ),
                Series(_("sets without RIR"), _all(kept, "effort_unknown"), digits=0, why="effort_unknown"),
            ],
            note=_("Minus: closer to failure than prescribed. Under half a repetition nobody can tell."),
            weekly=True,
            from_zero=True,
            links=kept_links,
        ),
        Plot(
            "load",
            _("Session load: session RPE × minutes"),
            days,
            [
                Series(_("week's load"), _all(loads, "week"), "bars", digits=0, why="week"),
                Series(_("monotony"), _all(loads, "monotony"), digits=2, why="monotony"),
                Series(_("strain"), _all(loads, "strain"), digits=0, why="strain"),
                Series(_("a day, over 7 days"), _all(loads, "acute"), digits=0, why="acute"),
                Series(_("a day, over 28 days"), _all(loads, "chronic"), digits=0, why="chronic"),
                Series(_("sessions not rated"), [float(len(row["unrated"])) for row in loads], digits=0, why="unrated"),
            ],
            note=_("Description only: it does not say who will be hurt, and drives no flag."),
            weekly=True,
            from_zero=True,
            links=[ask.why("load", day) for day in days],
        ),
    ]


def _all(rows: Sequence[dict[str, Any]], name: str) -> list[float | None]:
    return [row.get(name) for row in rows]


def _share(done: float, planned: float) -> float | None:
    return 100 * done / planned if planned else None


def _percent(share: float | None) -> float | None:
    return None if share is None else 100 * share


def _remark(one: WeekSummary) -> str:
    if one.volume["running"]:
        return _("so far")
    return _("deload") if one.volume["deload"] else ""
