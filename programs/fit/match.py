"""What can stand for an exercise: the same heads, and as much of them loaded while long, within a stated tolerance."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from periodization.rules import Rule
from programs.fit.model import ExerciseFit

RULE = Rule("fit.substitute", 2, "overlap of credits; every tolerance chosen")

# Of the sets that the written exercise gives its heads, this share must be given to the same heads for a close match.
# CHOSEN, as are all that follow.
HEADS_KEPT = 0.75
# The same for what is loaded while long, where the written exercise loads any head so.
LONG_KEPT = 0.5
# What is trained by both, of what is trained by either: a whole squat is no substitute for a leg extension.
OVERLAP = 0.5
# Where nothing is close, what keeps at least so much is still better than nothing: it is proposed with its loss said.
LEAST_HEADS = 0.55
LEAST_OVERLAP = 0.4
# Under this an exercise is not even offered to a coach who wants to choose otherwise.
OFFERED = 0.5


@dataclass(frozen=True, slots=True)
class Match:
    """How far `exercise` keeps what the written one trains. `within`: inside every tolerance of a close match;
    `harder`: the library names it as a harder variant of the written one, or of one that is harder."""

    exercise: ExerciseFit
    heads: float
    long: float
    overlap: float
    within: bool
    harder: bool = False

    @property
    def enough(self) -> bool:
        """Whether it is proposed at all, if need be with its loss said."""
        return self.within or (self.heads >= LEAST_HEADS and self.overlap >= LEAST_OVERLAP)


def kept(written: Mapping[str, float], other: Mapping[str, float]) -> float:
    """Return the share of `written` that `other` gives to the same heads, 0 to 1; 1 when nothing was written."""
    whole = sum(written.values())
    return sum(min(credit, other.get(head, 0.0)) for head, credit in written.items()) / whole if whole else 1.0


def overlap(a: Mapping[str, float], b: Mapping[str, float]) -> float:
    """Return what both train of what either does, 0 to 1."""
    heads = a.keys() | b.keys()
    either = sum(max(a.get(head, 0.0), b.get(head, 0.0)) for head in heads)
    return sum(min(a.get(head, 0.0), b.get(head, 0.0)) for head in heads) / either if either else 0.0


def match(written: ExerciseFit, other: ExerciseFit, harder: bool = False) -> Match:
    heads, long = kept(written.credits, other.credits), kept(written.long, other.long)
    both = overlap(written.credits, other.credits)
    close = heads >= HEADS_KEPT and long >= LONG_KEPT and both >= OVERLAP
    return Match(other, heads, long, both, close, harder)


class Pool:
    """The exercises that may be given, by id; what can stand for one is worked out once, for all clients."""

    def __init__(self, exercises: Mapping[int, ExerciseFit]) -> None:
        self.exercises = exercises
        self._ranked: dict[int, list[Match]] = {}
        self._found_above: dict[int, set[int]] = {}

    def harder_than(self, pk: int) -> set[int]:
        """Return what is harder than exercise `pk`: what the library's links lead up to from it, or from a named
        substitute on the same equipment, which is about as hard. What leads up in both directions is not harder."""
        return {other for other in self._above(pk) if pk not in self._above(other)}

    def _above(self, pk: int) -> set[int]:
        if pk not in self._found_above:
            one = self.exercises[pk]
            own = _reached({pk}, self._up)
            peers = {
                other
                for other in one.listed
                if other in self.exercises and self.exercises[other].equipment == one.equipment and other not in own
            }
            self._found_above[pk] = (own | _reached(peers, self._up)) & self.exercises.keys() - peers - {pk}
        return self._found_above[pk]

    @cached_property
    def _up(self) -> dict[int, set[int]]:
        links: dict[int, set[int]] = defaultdict(set)
        for one in self.exercises.values():
            links[one.pk] |= one.harder
            for other in one.easier:
                links[other].add(one.pk)
        return links

    def ranked(self, pk: int) -> list[Match]:
        """Return what can stand for exercise `pk`, best first: close matches, then what is enough, then the named
        substitutes, then by overlap and by what is loaded while long. Counted in the same unit (repetitions, seconds,
        steps)."""
        if pk not in self._ranked:
            written, harder = self.exercises[pk], self.harder_than(pk)
            found = [
                match(written, other, other.pk in harder)
                for other in self.exercises.values()
                if other.pk != pk
                and not other.archived
                and other.rep_unit == written.rep_unit
                # Most of a library trains nothing of the same.
                and not written.credits.keys().isdisjoint(other.credits)
            ]
            rank = {other: place for place, other in enumerate(written.listed)}
            found = [one for one in found if one.heads >= OFFERED and one.overlap >= OVERLAP / 2]
            found.sort(
                key=lambda one: (
                    not one.within,
                    not one.enough,
                    rank.get(one.exercise.pk, len(rank)),
                    -round(one.overlap + one.long / 4, 3),
                    one.exercise.name,
                    one.exercise.pk,
                )
            )
            self._ranked[pk] = found
        return self._ranked[pk]


def _reached(starts: set[int], links: Mapping[int, set[int]]) -> set[int]:
    found: set[int] = set()
    ends = starts
    while ends:
        ends = {other for one in ends for other in links.get(one, ())} - found
        found |= ends
    return found - starts
