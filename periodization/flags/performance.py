"""One exercise, repeatedly under the interval its own trend expected."""

from collections.abc import Iterator
from datetime import date

from periodization.flags.expectation import by_exercise, compare
from periodization.flags.facts import ClientHistory
from periodization.flags.flag import Flag, FlagRule
from periodization.flags.thresholds import Thresholds
from periodization.rules import Rule

RULE = Rule("performance.under_expected", 1, "90 % interval of the trend; the run of exposures is chosen")


def check(history: ClientHistory, today: date, t: Thresholds) -> Iterator[Flag]:
    """Yield a flag per exercise whose latest exposures in a row were all under the lower end of the interval."""
    for exercise, exposures in by_exercise(history.exposures).items():
        run = compare(exposures, today, t.recent_days, t)[-t.exposures_in_a_row :]
        if len(run) < t.exposures_in_a_row or any(c.observed_kg >= c.low_kg for c in run):
            continue
        last = run[-1]
        yield Flag(
            RULE.id,
            RULE.version,
            "performance",
            "watch",
            "exercise",
            exercise,
            opened_on=run[0].exposure.day,
            evidence_ids=tuple(i for c in run for i in c.evidence),
            code="performance_under_expected",
            params={
                "count": len(run),
                "percent": round(100 * (1 - last.observed_kg / last.expected_kg), 1),
            },
            clears_code="clears_performance",
            values={"expected_kg": round(last.expected_kg, 2)}
            | {f"observed_{n}": round(c.observed_kg, 2) for n, c in enumerate(run, 1)}
            | {f"low_{n}": round(c.low_kg, 2) for n, c in enumerate(run, 1)},
            thresholds={"exposures_in_a_row": t.exposures_in_a_row, "recent_days": t.recent_days},
        )


FLAG_RULE = FlagRule(RULE, "performance", lambda t: t.baseline_days, check)
