"""Which parts changed places: the fewest whose moving explains the new order."""

from bisect import bisect_left
from collections.abc import Hashable, Sequence
from typing import TypeVar

H = TypeVar("H", bound=Hashable)


def out_of_order(now: Sequence[H], before: Sequence[H | None]) -> set[H]:
    """Return the parts of `now` that moved, seen from the order `before`; parts that only one of them has do not count.

    What stays is a longest increasing subsequence (patience sorting, O(n log n)).
    """
    place = {part: number for number, part in enumerate(before) if part is not None}
    common = [part for part in now if part in place]
    tails: list[int] = []
    ends: list[int] = []  # index in `common` of each tail
    previous: list[int] = []
    for index, part in enumerate(common):
        at = bisect_left(tails, place[part])
        previous.append(ends[at - 1] if at else -1)
        tails[at : at + 1] = [place[part]]
        ends[at : at + 1] = [index]
    stays: set[H] = set()
    index = ends[-1] if ends else -1
    while index >= 0:
        stays.add(common[index])
        index = previous[index]
    return set(common) - stays
