"""What a coach asks a draft for, as it is kept: a plain value that goes to JSON and back without loss."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, fields, replace
from typing import Any

from periodization.draft import Weights
from periodization.draft.weights import PRIORITY_FACTORS, GradeWeights
from periodization.targets import Priority, Status

Range = tuple[int, int]
VERSION = 1


@dataclass(frozen=True, slots=True)
class AskedDay:
    """`weekday` 0 (Monday) to 6; `minutes` with the warm-up."""

    weekday: int
    minutes: int


@dataclass(frozen=True, slots=True)
class AskedTarget:
    """Weekly fractional hard sets of one muscle group, what of it is a must, and how many exercises train the group
    directly on each day (a range a day; empty: as many as it takes)."""

    floor: float
    ceiling: float
    priority: Priority = "normal"
    floor_must: bool = False
    heads_must: bool = False
    long_must: bool = False
    exercises: tuple[Range, ...] = ()


@dataclass(frozen=True, slots=True)
class AskedDose:
    """Repetitions and reserve, for exercises over several joints or over one."""

    reps: Range
    rir: Range


@dataclass(frozen=True, slots=True)
class Ask:
    """`equipment` None: all there is. `compound` and `single` None: as usual for the training status. Exercises and
    equipment are ids, `targets` are by group slug, `limits` and `actions` are slugs."""

    status: Status
    days: tuple[AskedDay, ...]
    targets: Mapping[str, AskedTarget]
    equipment: tuple[int, ...] | None = None
    include: tuple[int, ...] = ()
    avoid: tuple[int, ...] = ()
    limits: tuple[str, ...] = ()
    actions: tuple[str, ...] = ()
    pairs: bool = False
    compound: AskedDose | None = None
    single: AskedDose | None = None
    sets: Range = (2, 4)
    session_cap: float = 10.0
    slots_per_day: int = 10
    spacing_must: bool = False
    weights: Mapping[str, float] = field(default_factory=dict)
    seconds: int = 20
    seed: int = 0


def ask_to_json(ask: Ask) -> dict[str, Any]:
    return {"version": VERSION, **asdict(ask)}


def ask_from_json(kept: Mapping[str, Any]) -> Ask:
    """Return what `ask_to_json` wrote; unknown keys (of a newer version) are left out."""
    known = {one.name for one in fields(Ask)}
    values = {key: value for key, value in kept.items() if key in known}
    targets = {
        slug: AskedTarget(**{**one, "exercises": tuple((low, high) for low, high in one.get("exercises", ()))})
        for slug, one in values["targets"].items()
    }
    doses = {
        name: AskedDose(_range(values[name]["reps"]), _range(values[name]["rir"])) if values.get(name) else None
        for name in ("compound", "single")
    }
    lists = {name: tuple(values.get(name, ())) for name in ("include", "avoid", "limits", "actions")}
    equipment = values.get("equipment")
    changed = {
        **values,
        **doses,
        **lists,
        "days": tuple(AskedDay(**one) for one in values["days"]),
        "targets": targets,
        "equipment": None if equipment is None else tuple(equipment),
        "sets": _range(values.get("sets", (2, 4))),
    }
    return Ask(**changed)


def weights_of(ask: Ask) -> Weights:
    """Return the weights: the defaults, and what the coach changed (`grade`, `grades.activation`, `priority.focus`)."""
    own: dict[str, float] = {}
    grades: dict[str, float] = {}
    factors = dict(PRIORITY_FACTORS)
    for name, value in ask.weights.items():
        kind, _, part = name.partition(".")
        if kind == "grades":
            grades[part] = value
        elif kind == "priority":
            factors[part] = value  # type: ignore[index]
        else:
            own[name] = value
    return Weights(**own, grades=replace(GradeWeights(), **grades), priority=factors)


def default_weights() -> dict[str, float]:
    """Return every weight by the name under which an ask keeps it."""
    plain = Weights()
    single = {f.name: getattr(plain, f.name) for f in fields(plain) if f.name not in ("grades", "priority")}
    grades = {f"grades.{f.name}": getattr(plain.grades, f.name) for f in fields(plain.grades)}
    return {**single, **grades, **{f"priority.{name}": factor for name, factor in PRIORITY_FACTORS.items()}}


def _range(ends: Any) -> Range:
    return int(ends[0]), int(ends[1])
