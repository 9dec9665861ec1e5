"""Weekly volume of one muscle group against its range, and of its heads."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _

from coaching.models import WeekSummary
from coaching.plots.ask import Ask
from coaching.plots.plot import Plot, Series
from coaching.reads.week_row import GroupRow, group_rows
from programs.models import Head
from programs.sentences import Words

# The overview shows so many of the latest weeks side by side.
SIDE_BY_SIDE = 6


@dataclass(frozen=True)
class GroupLine:
    """A muscle group in the overview: hard sets of the latest weeks with where their answers stand, oldest first.

    `now` is the last week.
    """

    now: GroupRow
    done: list[tuple[float | None, str]]

    @property
    def latest(self) -> str:
        """Where the answer to the newest number stands."""
        return next((link for _done, link in reversed(self.done) if link), "")


@dataclass(frozen=True)
class Volumes:
    """`chosen` is the slug of the group that the plots tell of; None where nothing was trained or planned."""

    weeks: list[dt.date]
    lines: list[GroupLine]
    chosen: str | None
    plots: list[Plot]


def volumes(ask: Ask, words: Words, summaries: Sequence[WeekSummary]) -> Volumes:
    """Return the overview and the plots of the group asked for, or of the one planned most; one query (heads)."""
    recent = summaries[-SIDE_BY_SIDE:]
    lines = _lines(ask, recent, words)
    if not lines:
        return Volumes([], [], None, [])
    known = {line.now.slug for line in lines}
    # Unasked, the group that the plan trains most.
    chosen = ask.group if ask.group in known else max(lines, key=lambda line: line.now.planned).now.slug
    plots = [_group_plot(ask, chosen, words.groups.get(chosen, chosen), summaries)]
    heads = list(Head.objects.filter(group__slug=chosen).select_related("muscle"))
    if len(heads) > 1:
        plots.append(_head_plot(ask, words.groups.get(chosen, chosen), heads, summaries))
    return Volumes([row.week for row in recent], lines, chosen, plots)


def _lines(ask: Ask, recent: Sequence[WeekSummary], words: Words) -> list[GroupLine]:
    """Return a line for each group that was planned, done or asked for in these weeks, by name."""
    by_week = [{row.slug: row for row in group_rows(one.volume, words)} for one in recent]
    latest: dict[str, GroupRow] = {}
    for week in by_week:
        latest |= {slug: row for slug, row in week.items() if not row.idle or slug in latest}
    return [
        GroupLine(
            row,
            [
                (week[slug].done, ask.why("volume", one.week, slug)) if slug in week else (None, "")
                for one, week in zip(recent, by_week, strict=True)
            ],
        )
        for slug, row in sorted(latest.items(), key=lambda pair: pair[1].name)
    ]


def _group_plot(ask: Ask, slug: str, name: str, summaries: Sequence[WeekSummary]) -> Plot:
    rows = [one.volume["groups"].get(slug, {}) for one in summaries]
    days = [one.week for one in summaries]
    return Plot(
        "volume",
        _("%(group)s: hard sets a week") % {"group": name},
        days,
        [
            Series(_("range, from"), _values(rows, "floor"), "low", why="floor"),
            Series(_("to"), _values(rows, "ceiling"), "high", why="ceiling"),
            Series(_("planned"), _values(rows, "planned"), "open", why="planned"),
            Series(_("done"), _values(rows, "done"), "bars", why="done"),
        ],
        weekly=True,
        from_zero=True,
        links=[ask.why("volume", day, slug) if row else None for day, row in zip(days, rows, strict=True)],
    )


def _values(rows: Sequence[dict[str, Any]], name: str) -> list[float | None]:
    return [row.get(name) for row in rows]


def _head_plot(ask: Ask, group: str, heads: Sequence[Head], summaries: Sequence[WeekSummary]) -> Plot:
    """Return the done sets of each head; a head has no range of its own."""
    columns = []
    for head in heads:
        values = [one.volume["heads"].get(head.slug, {}).get("done", 0.0) for one in summaries]
        if any(values):
            links = [ask.why("head", one.week, head.slug) for one in summaries]
            columns.append(Series(str(head), values, "line", why="done", links=links))
    return Plot(
        "heads",
        _("%(group)s: hard sets a week by head") % {"group": group},
        [one.week for one in summaries],
        columns,
        note=_("A head has no range of its own; the group is counted at the largest credit among its heads."),
        weekly=True,
        from_zero=True,
    )
