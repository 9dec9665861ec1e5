"""An exercise that no load fits any more: too hard with the least there is, or too easy with the most."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from periodization.flags.facts import Exposure
from periodization.loads import LoadLadder, next_down, next_up
from periodization.progression.target import SETTINGS, Counted
from periodization.progression.work import SAME_LOAD_KG, Work, read

Way = Literal["easier", "harder"]


@dataclass(frozen=True, slots=True)
class Outgrown:
    """What `sessions` in a row showed at `load_kg`. `fewest` are the repetitions of the weakest set, the latest last.

    `bound` is the end of the prescribed range that was missed or left, of the latest session.
    """

    way: Way
    fewest: tuple[int, ...]
    bound: int
    load_kg: float
    evidence: tuple[str, ...]

    @property
    def sessions(self) -> int:
        """How many sessions in a row."""
        return len(self.fewest)


@dataclass(frozen=True, slots=True)
class OutgrownSettings:
    """Chosen: sessions in a row under the lowest repetitions, and over the highest, until it is said."""

    under: int = 2
    over: int = 3


DEFAULT = OutgrownSettings()


def outgrown(
    history: Sequence[Exposure],
    ladder: LoadLadder,
    since: date | None = None,
    settings: OutgrownSettings = DEFAULT,
) -> Outgrown | None:
    """Say whether the last exposures of ONE exercise (any order) are past what its loads can follow; None if not.

    Easier: a set under the lowest repetitions, and nothing lighter. Harder: every set over the highest, none harder
    than prescribed, all sets there, and nothing heavier. (Where the next load is only too far a step, the target names
    the ways on.) Deloads, and what nothing was prescribed for, are left out; all sessions count at one load, and the
    latest is on `since` or later.
    """
    known = [e for e in history if not e.deload and e.reps_min is not None and e.reps_max is not None]
    works = [w for w in (read(e, ladder) for e in sorted(known, key=lambda e: (e.day, e.session_id))) if w is not None]
    if not works or (since is not None and works[-1].exposure.day < since):
        return None
    last = works[-1]
    if next_down(ladder, last.load_kg) is None and (run := _run(works, settings.under, _under)):
        return _found("easier", run, last.exposure.reps_min)
    if next_up(ladder, last.load_kg) is None and (run := _run(works, settings.over, _over)):
        return _found("harder", run, last.exposure.reps_max)
    return None


def _run(works: Sequence[Work], count: int, holds: Callable[[Work], bool]) -> list[Work]:
    """Return the last `count` works when what is asked holds for all of them, at one load; else nothing."""
    last = list(works[-count:])
    same = all(abs(w.load_kg - last[-1].load_kg) <= SAME_LOAD_KG for w in last)
    return last if len(last) == count and same and all(holds(w) for w in last) else []


def _under(work: Work) -> bool:
    return work.exposure.reps_min is not None and work.fewest < work.exposure.reps_min


def _over(work: Work) -> bool:
    e = work.exposure
    if e.reps_max is None or work.mean_rir is None or not work.all_rated or not work.harder_or_same:
        return False
    there = e.sets_prescribed is None or len(e.sets) >= e.sets_prescribed
    return there and work.fewest > e.reps_max and work.mean_rir >= (e.rir_min or 0)


def _found(way: Way, run: Sequence[Work], bound: int | None) -> Outgrown:
    evidence = tuple(i for w in run for i in w.evidence)
    return Outgrown(way, tuple(w.fewest for w in run), bound or 0, run[-1].load_kg, evidence)


def smaller_range(reps_min: int, reps_max: int, fewest: int, counted: Counted = "reps") -> tuple[int, int] | None:
    """Return a range as wide that begins at what was done; None where that is no lower, or too little to train with.

    Too little (chosen): under three of the steps in which this exercise goes up, so under 3 repetitions.
    """
    if fewest >= reps_min or fewest < 3 * SETTINGS[counted].rep_step:
        return None
    return fewest, fewest + reps_max - reps_min
