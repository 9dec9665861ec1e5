"""A week's volume far over its target range."""

from collections.abc import Iterator
from datetime import date

from periodization.flags.facts import ClientHistory
from periodization.flags.flag import Flag, FlagRule
from periodization.flags.thresholds import Thresholds
from periodization.rules import Rule

RULE = Rule("volume.far_over_range", 1, "the share over the range is chosen; no published limit was found")
WEEK_DAYS = 6


def check(history: ClientHistory, today: date, t: Thresholds) -> Iterator[Flag]:
    """Yield a flag per group whose done sets of the current week are far over the upper end."""
    for week in sorted(history.volume, key=lambda w: (w.group, w.week)):
        limit = week.ceiling * t.volume_over_share
        if week.ceiling <= 0 or week.done <= limit:
            continue
        yield Flag(
            RULE.id,
            RULE.version,
            "volume",
            "watch",
            "group",
            week.group,
            opened_on=week.week,
            evidence_ids=(f"{week.week.isoformat()}/{week.group}",),
            code="volume_far_over",
            params={"sets": round(week.done, 1), "floor": week.floor, "ceiling": week.ceiling},
            clears_code="clears_volume",
            clears_params={"ceiling": week.ceiling},
            values={"sets": round(week.done, 3), "ceiling": week.ceiling},
            thresholds={"share": t.volume_over_share},
        )


FLAG_RULE = FlagRule(RULE, "volume", lambda _: WEEK_DAYS, check)
