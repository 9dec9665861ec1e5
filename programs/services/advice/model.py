"""A piece of advice, and what can be done about it."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Remedy:
    """`do` is the change as the editor's buttons say it, `label` what it is and `effect` what it does to the sums."""

    do: str
    label: str
    effect: str


@dataclass(frozen=True, slots=True)
class Advice:
    """`code` is gap, over, minutes, under, head or long; `subject` the group, head or day it speaks of."""

    code: str
    subject: str
    text: str
    reason: str
    remedies: tuple[Remedy, ...] = ()
