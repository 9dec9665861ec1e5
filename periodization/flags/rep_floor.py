"""Sets that end under the lowest number of repetitions prescribed."""

from collections.abc import Iterator
from datetime import date

from periodization.flags.expectation import by_exercise
from periodization.flags.facts import ClientHistory
from periodization.flags.flag import Flag, FlagRule
from periodization.flags.thresholds import Thresholds
from periodization.rules import Rule

RULE = Rule("reps.under_floor", 2, "the share of sets and the run of exposures are chosen")


def check(history: ClientHistory, today: date, t: Thresholds) -> Iterator[Flag]:
    """Yield a flag per exercise whose latest exposures all had too many sets under the floor."""
    for exercise, exposures in by_exercise(history.exposures).items():
        recent = [e for e in exposures if e.sets and e.reps_min is not None][-t.floor_exposures :]
        if len(recent) < t.floor_exposures:
            continue
        under = [[s for s in e.sets if e.reps_min is not None and s.reps < e.reps_min] for e in recent]
        if any(len(low) / len(e.sets) < t.floor_share for low, e in zip(under, recent, strict=True)):
            continue
        count, total = sum(map(len, under)), sum(len(e.sets) for e in recent)
        yield Flag(
            RULE.id,
            RULE.version,
            "performance",
            "watch",
            "exercise",
            exercise,
            opened_on=recent[0].day,
            evidence_ids=tuple(s.set_id for low in under for s in low),
            code="reps_under_floor",
            params={"under": count, "sets": total, "floor": recent[-1].reps_min or 0, "count": len(recent)},
            clears_code="clears_reps_under_floor",
            values={"share": round(count / total, 3)},
            thresholds={"share": t.floor_share, "exposures": t.floor_exposures},
        )


FLAG_RULE = FlagRule(RULE, "performance", lambda t: t.floor_days, check)
