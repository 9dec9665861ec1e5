"""Which heads a week reaches, and which of them it loads while long."""

from collections import defaultdict
from dataclasses import dataclass

from periodization.draft.facts import Facts
from periodization.draft.score import Sets


@dataclass(frozen=True, slots=True)
class HeadCover:
    """Fractional sets of a head. `direct`: by an exercise that credits it as fully as any candidate does; `long`: by
    such an exercise that loads it while long."""

    head: str
    group: str
    sets: float
    direct: bool
    long: bool


def covered(facts: Facts, sets: Sets) -> tuple[HeadCover, ...]:
    """Return every head of the targeted groups, in the order of the request."""
    amounts: dict[str, float] = defaultdict(float)
    direct: set[str] = set()
    long: set[str] = set()
    for (_, exercise), number in sets.items():
        one = facts.exercises[exercise]
        for head, credit in one.candidate.credits.items():
            amounts[head] += credit * number
        direct |= one.covers
        long |= one.covers & one.candidate.long_heads
    return tuple(
        HeadCover(head, group, amounts[head], head in direct, head in long)
        for head, group in facts.group_of_head.items()
    )
