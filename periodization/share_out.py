"""A muscle group's weekly sets over its slots, in whole sets."""

from collections.abc import Sequence

from periodization.rules import Rule

RULE = Rule("ramp.share_out", 1, "chosen: one set at a time, in the proportion of the base week")


def share_out(written: Sequence[int], total: int, least: int = 1, most: int = 20) -> tuple[int, ...]:
    """Return sets per slot that add up to `total`, starting from the sets `written` in the base week.

    Sets are added one at a time where (sets + 1/2) / written is smallest, and taken away where (sets - 1/2) / written
    is largest; among equals the earlier slot gains and the later one loses. So the written total gives exactly what is
    written, a larger total never gives a slot fewer sets, and the same input always gives the same output. A slot keeps
    between `least` and `most` sets, also when `total` then cannot be met.
    """
    if any(sets < 1 for sets in written):
        raise ValueError("A slot of the base week has at least one set.")
    sets = list(written)
    while sum(sets) < total:
        free = [i for i, count in enumerate(sets) if count < most]
        if not free:
            break
        sets[min(free, key=lambda i: ((sets[i] + 0.5) / written[i], i))] += 1
    while sum(sets) > total:
        free = [i for i, count in enumerate(sets) if count > least]
        if not free:
            break
        sets[max(free, key=lambda i: ((sets[i] - 0.5) / written[i], i))] -= 1
    return tuple(sets)
