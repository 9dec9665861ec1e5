"""The loads that equipment can really make. All in kg; frozen and hashable, so their settings are computed once."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FixedSteps:
    """A rack of fixed weights: every `step` from `minimum` to `maximum`."""

    minimum: float
    maximum: float
    step: float


@dataclass(frozen=True, slots=True)
class Listed:
    """Loads named one by one."""

    values: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class PlatePairs:
    """A bar and plates that go on in pairs: `pairs` holds (plate, how many pairs of it there are)."""

    bar: float
    pairs: tuple[tuple[float, int], ...]


@dataclass(frozen=True, slots=True)
class Stack:
    """A pin-loaded stack. Each add-on weight is there once and may be hung on any pin."""

    pins: tuple[float, ...]
    add_ons: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class NoLoad:
    """Nothing to choose: body weight alone, a band, a mat. The only setting is 0."""


@dataclass(frozen=True, slots=True)
class BodyWeightPlus:
    """The body, and what is hung on it. A setting is the added load; 0 is always there."""

    inner: "LoadLadder"


@dataclass(frozen=True, slots=True)
class Assisted:
    """A machine that helps. A setting is the help in kg; MORE help is a LIGHTER set, and no help (0) is there."""

    inner: "LoadLadder"


LoadLadder = FixedSteps | Listed | PlatePairs | Stack | NoLoad | BodyWeightPlus | Assisted
