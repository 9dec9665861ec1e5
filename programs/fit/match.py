"""What can stand for an exercise: the same heads, and as much of them loaded while long, within a stated tolerance."""

from collections.abc import Mapping
from dataclasses import dataclass

from periodization.rules import Rule
from programs.fit.model import ExerciseFit

RULE = Rule("fit.substitute", 1, "overlap of credits; every tolerance chosen")

# Of the sets that the written exercise gives its heads, this share must be given to the same heads: no substitute is
# proposed under it. CHOSEN, as are the next three.
HEADS_KEPT = 0.75
# The same for what is loaded while long, where the written exercise loads any head so.
LONG_KEPT = 0.5
# What is trained by both, of what is trained by either: a whole squat is no substitute for a leg extension.
OVERLAP = 0.5
# Under this an exercise is not even offered to a coach who wants to choose otherwise.
OFFERED = 0.5


@dataclass(frozen=True, slots=True)
class Match:
    """How far `exercise` keeps what the written one trains; `within`: inside every tolerance."""

    exercise: ExerciseFit
    heads: float
    long: float
    overlap: float
    within: bool


def kept(written: Mapping[str, float], other: Mapping[str, float]) -> float:
    """Return the share of `written` that `other` gives to the same heads, 0 to 1; 1 when nothing was written."""
    whole = sum(written.values())
    return sum(min(credit, other.get(head, 0.0)) for head, credit in written.items()) / whole if whole else 1.0


def overlap(a: Mapping[str, float], b: Mapping[str, float]) -> float:
    """Return what both train of what either does, 0 to 1."""
    heads = a.keys() | b.keys()
    either = sum(max(a.get(head, 0.0), b.get(head, 0.0)) for head in heads)
    return sum(min(a.get(head, 0.0), b.get(head, 0.0)) for head in heads) / either if either else 0.0


def match(written: ExerciseFit, other: ExerciseFit) -> Match:
    heads, long = kept(written.credits, other.credits), kept(written.long, other.long)
    both = overlap(written.credits, other.credits)
    return Match(other, heads, long, both, heads >= HEADS_KEPT and long >= LONG_KEPT and both >= OVERLAP)


class Pool:
    """The exercises that may be given, by id; what can stand for one is worked out once, for all clients."""

    def __init__(self, exercises: Mapping[int, ExerciseFit]) -> None:
        self.exercises = exercises
        self._ranked: dict[int, list[Match]] = {}

    def ranked(self, pk: int) -> list[Match]:
        """Return what can stand for exercise `pk`, best first: within tolerance, then the named substitutes, then by
        overlap and by what is loaded while long. Counted in the same unit (repetitions, seconds, steps)."""
        if pk not in self._ranked:
            written = self.exercises[pk]
            found = [
                match(written, other)
                for other in self.exercises.values()
                if other.pk != pk and not other.archived and other.rep_unit == written.rep_unit
            ]
            rank = {other: place for place, other in enumerate(written.listed)}
            found = [one for one in found if one.heads >= OFFERED and one.overlap >= OVERLAP / 2]
            found.sort(
                key=lambda one: (
                    not one.within,
                    rank.get(one.exercise.pk, len(rank)),
                    -round(one.overlap + one.long / 4, 3),
                    one.exercise.name,
                    one.exercise.pk,
                )
            )
            self._ranked[pk] = found
        return self._ranked[pk]
