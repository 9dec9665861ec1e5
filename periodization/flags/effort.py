"""The same load and repetitions at fewer repetitions in reserve than before."""

from collections import defaultdict
from collections.abc import Iterator
from datetime import date
from math import fsum
from statistics import median

from periodization.flags.expectation import by_exercise
from periodization.flags.facts import ClientHistory, Exposure, SetFact
from periodization.flags.flag import Flag, FlagRule
from periodization.flags.thresholds import Thresholds
from periodization.rules import Rule

RULE = Rule("effort.same_work_lower_rir", 1, "the drop and the run of exposures are chosen")
# Loads within 5 g are the same load.
GRAINS_PER_KG = 200
Key = tuple[int, int, int]


def check(history: ClientHistory, today: date, t: Thresholds) -> Iterator[Flag]:
    """Yield a flag per exercise whose latest exposures all cost more effort than the same work did before."""
    for exercise, exposures in by_exercise(history.exposures).items():
        recent = exposures[-t.rir_drop_exposures :]
        before = exposures[: -t.rir_drop_exposures]
        if len(recent) < t.rir_drop_exposures or not before:
            continue
        usual = _usual(before, t.rir_drop_before)
        drops = [_drop(one, usual) for one in recent]
        if any(d is None or d < t.rir_drop for d in drops):
            continue
        mean = fsum(d for d in drops if d is not None) / len(drops)
        yield Flag(
            RULE.id,
            RULE.version,
            "performance",
            "watch",
            "exercise",
            exercise,
            opened_on=recent[0].day,
            evidence_ids=tuple(s.set_id for one in recent for key, s in _keyed(one) if key in usual),
            code="same_work_lower_rir",
            params={"drop": round(mean, 1), "count": len(recent)},
            clears_code="clears_effort",
            values={"mean_drop": round(mean, 3)},
            thresholds={"rir_drop": t.rir_drop, "exposures": t.rir_drop_exposures},
        )


def _keyed(exposure: Exposure) -> list[tuple[Key, SetFact]]:
    """Return the sets by load, repetitions and place in the exposure: a third set is harder than a first."""
    return [((round(s.load_kg * GRAINS_PER_KG), s.reps, n), s) for n, s in enumerate(exposure.sets)]


def _usual(exposures: list[Exposure], minimum: int) -> dict[Key, float]:
    """Return the median RIR of each load, number of repetitions and place that was there `minimum` times."""
    seen: dict[Key, list[float]] = defaultdict(list)
    for one in exposures:
        for key, s in _keyed(one):
            if s.rir is not None:
                seen[key].append(s.rir)
    return {key: median(values) for key, values in seen.items() if len(values) >= minimum}


def _drop(exposure: Exposure, usual: dict[Key, float]) -> float | None:
    """Return by how many repetitions the exposure's RIR is under the usual, None when no set can be compared."""
    drops = [usual[key] - s.rir for key, s in _keyed(exposure) if s.rir is not None and key in usual]
    return fsum(drops) / len(drops) if drops else None


FLAG_RULE = FlagRule(RULE, "performance", lambda t: t.baseline_days, check)
