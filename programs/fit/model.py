"""What fitting knows, and what it says."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from programs.document.adapt import Change
from programs.services.limits import AVOIDED, NOT_JUDGED, Limits


@dataclass(frozen=True, slots=True)
class ExerciseFit:
    """What matching asks of an exercise. `credits` and `long` are by head slug; `long` holds the credits of heads that
    are loaded while long; `listed` are the named substitutes, best first, `harder` and `easier` the named variants;
    `limits` are slugs and `sites` where in the body they are."""

    pk: int
    name: str
    equipment: int
    equipment_name: str
    credits: Mapping[str, float]
    long: Mapping[str, float]
    limits: frozenset[str] = frozenset()
    sites: frozenset[str] = frozenset()
    judged: bool = True
    listed: tuple[int, ...] = ()
    harder: frozenset[int] = frozenset()
    easier: frozenset[int] = frozenset()
    one_sided: bool = False
    rep_unit: str = "reps"
    rep_s: int = 4
    setup_s: int = 60
    load_kind: str = "external"
    ladder: Mapping[str, Any] = field(default_factory=dict)
    ladder_lb: Mapping[str, Any] | None = None
    archived: bool = False

    def closed_by(self, limits: Limits) -> tuple[str, ...]:
        """Return why the exercise is closed under `limits`, as programs.services.limits.violations does for a row."""
        found = [slug for slug in sorted(self.limits) if slug in limits.slugs]
        if limits.slugs and not self.judged:
            found.append(NOT_JUDGED)
        return (*found, AVOIDED) if self.pk in limits.exercises else tuple(found)


@dataclass(frozen=True, slots=True)
class ClientFacts:
    """One client as fitting sees them.

    `equipment`: ids, None for everything. `pain`: {exercise id: (score, site)} of flags that say stop; `pain_sites`:
    {site: score} of those that name no exercise. `minutes` for a session. `e1rm`: {exercise id: (kg, days ago)}.
    `done`: {exercise id: days ago} when it was last logged. `sides`: {exercise id: (low, middle, high) per cent}, minus
    when the left is weaker.
    """

    pk: int
    status: str = "intermediate"
    unit: str = "kg"
    minutes: int | None = None
    equipment: frozenset[int] | None = None
    limits: Limits = field(default_factory=Limits)
    pain: Mapping[int, tuple[int, str]] = field(default_factory=dict)
    pain_sites: Mapping[str, int] = field(default_factory=dict)
    e1rm: Mapping[int, tuple[float, int]] = field(default_factory=dict)
    done: Mapping[int, int] = field(default_factory=dict)
    sides: Mapping[int, tuple[float, float, float]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Option:
    """A substitute that may be chosen; `heads` and `long` are the shares of the training it keeps, 0 to 1."""

    exercise: int
    heads: float
    long: float
    within: bool
    harder: bool = False


@dataclass(frozen=True, slots=True)
class Choice:
    """What the coach said to a proposal; `to` 0 leaves the exercise out."""

    accept: bool = True
    to: int | None = None
    number: float | None = None


@dataclass(frozen=True, slots=True)
class Proposal:
    """One difference. `change` is what would be done as it stands now, with the coach's choice; `required`: it cannot
    be declined, only chosen otherwise. `number` (with its bounds) can be edited where there is one."""

    id: str
    change: Change
    reason: str
    params: Mapping[str, Any] = field(default_factory=dict)
    exercise: int | None = None
    options: tuple[Option, ...] = ()
    required: bool = False
    accepted: bool = True
    edited: bool = False
    number: float | None = None
    bounds: tuple[float, float] | None = None
