"""One exposure, read for progression."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum
from statistics import median

from periodization.flags.facts import Exposure, SetFact
from periodization.loads import Assisted, BodyWeightPlus, LoadLadder, effective_load
from periodization.progression.target import Counted, Prescription, ProgressionSettings, Variants

SAME_LOAD_KG = 0.005


@dataclass(frozen=True, slots=True)
class Work:
    """The working load of an exposure (the most common, the easier of two as common) and its sets."""

    exposure: Exposure
    load_kg: float
    sets: tuple[SetFact, ...]
    harder_or_same: bool
    evidence: tuple[str, ...]

    @property
    def fewest(self) -> int:
        """The fewest repetitions of a set at the working load."""
        return min(s.reps for s in self.sets)

    @property
    def rirs(self) -> tuple[float, ...] | None:
        """RIR of each set at the working load; None when one is missing."""
        known = tuple(s.rir for s in self.sets if s.rir is not None)
        return known if len(known) == len(self.sets) else None

    @property
    def all_rated(self) -> bool:
        """Whether every set of the exposure, at whatever load, has its RIR."""
        return all(s.rir is not None for s in self.exposure.sets)

    @property
    def mean_rir(self) -> float | None:
        """Mean RIR at the working load; None when one is missing."""
        return None if self.rirs is None else fsum(self.rirs) / len(self.rirs)

    def complete(self, prescription: Prescription) -> bool:
        """Say whether as many sets were logged as the exposure itself asked for (unknown: as are asked for now)."""
        wanted = self.exposure.sets_prescribed
        return len(self.exposure.sets) >= (prescription.sets if wanted is None else wanted)


@dataclass(frozen=True, slots=True)
class Case:
    """What a suggestion is made for: the slot to come, what can be loaded, and what is known of the body.

    `body_kg` is the part of the body that moves; None when unknown.
    """

    asked: Prescription
    ladder: LoadLadder
    body_kg: float | None
    settings: ProgressionSettings
    variants: Variants
    counted: Counted
    formula: str = "epley"

    def moved(self, load: float) -> float | None:
        """Return what the muscles move at a setting, kg; None when that is unknown or nothing."""
        return effective_load(self.ladder, load, self.body_kg)


def hardness(ladder: LoadLadder, kg: float) -> float:
    """Return a number that grows with how hard a setting is: on an assisted machine less help is harder."""
    return -kg if isinstance(ladder, Assisted) else kg


def needs_body(ladder: LoadLadder) -> bool:
    """Say whether the body is part of the load."""
    return isinstance(ladder, BodyWeightPlus | Assisted)


def read(exposure: Exposure, ladder: LoadLadder) -> Work | None:
    """Return the exposure's work; None without a working set."""
    if not exposure.sets:
        return None
    counts = Counter(round(s.load_kg / SAME_LOAD_KG) for s in exposure.sets)
    key = min(counts, key=lambda k: (-counts[k], hardness(ladder, k)))
    sets = tuple(s for s in exposure.sets if round(s.load_kg / SAME_LOAD_KG) == key)
    load = sets[0].load_kg
    all_hard = all(hardness(ladder, s.load_kg) >= hardness(ladder, load) - SAME_LOAD_KG for s in exposure.sets)
    return Work(exposure, load, sets, all_hard, tuple(s.set_id for s in exposure.sets))


def doubt(last: Work, before: Sequence[Work], case: Case) -> float | None:
    """Return by how many percent the last load is off the median of up to three before it, when that is doubtful.

    Doubtful too: repetitions far over the range (0.0 then). None when there is no doubt.
    """
    s = case.settings
    if last.fewest > case.asked.reps_max + s.doubtful_reps and last.exposure.reps_max is not None:
        return 0.0
    known = [kg for kg in (case.moved(w.load_kg) for w in before[-3:]) if kg is not None and kg > 0]
    now = case.moved(last.load_kg)
    if len(known) < 2 or now is None:
        return None
    off = now / median(known) - 1
    return round(100 * off, 1) if abs(off) > s.doubtful_share else None
