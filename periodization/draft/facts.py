"""What the model and the score both need to know of a request, looked up once."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, fields
from itertools import combinations

from periodization.dose import roll_up
from periodization.draft.demands import Demand
from periodization.draft.prescription import Prescription, prescribe
from periodization.draft.request import Candidate, Grades, Request, Target
from periodization.draft.validate import prescriptions_of
from periodization.draft.weights import GradeWeights
from periodization.spacing import DAYS_PER_WEEK, HOURS_PER_DAY


@dataclass(frozen=True, slots=True)
class ExerciseFacts:
    """`candidate` as given; `credit` by targeted group; `covers`, `long` and `variety` are the goals it serves;
    `set_seconds` is a set with its rest; `slot_seconds` what setting up takes beyond the shortest rest; `loss` the
    points that a set costs; `barred_by` the demands that forbid it."""

    candidate: Candidate
    id: str
    credit: dict[str, float]
    direct: frozenset[str]
    covers: frozenset[str]
    long: frozenset[str]
    variety: frozenset[tuple[str, str]]
    set_seconds: float
    slot_seconds: float
    setup_minutes: float
    equipment: str
    loss: float
    barred_by: frozenset[Demand]
    prescription: Prescription


@dataclass(frozen=True, slots=True)
class Facts:
    """`factor` is the priority factor by group; `near` the pairs of days that are closer than the minimum."""

    request: Request
    exercises: dict[str, ExerciseFacts]
    targets: dict[str, Target]
    factor: dict[str, float]
    group_of_head: dict[str, str]
    near: tuple[tuple[str, str], ...]
    budgets: dict[str, float]


def gather(request: Request, stretch: Mapping[str, float] | None = None) -> Facts:
    """Look up everything once. The request has been checked. `stretch` by day lengthens the time that the model may
    fill (1.2: by a fifth), for weeks whose pairs will win it back."""
    longer = stretch or {}
    targets = {target.group: target for target in request.targets}
    groups = {head.id: head.group for head in request.heads if head.group in targets and head.group}
    actions = {head.id: head.actions for head in request.heads}
    # A head is covered by the exercises that credit it as fully as any candidate does: some are never trained directly.
    fullest: dict[str, float] = defaultdict(float)
    for one in request.candidates:
        for head, share in one.credits.items():
            fullest[head] = max(fullest[head], share)
    shortest_rest = min((float(one.rest_seconds) for one in request.candidates), default=0.0)
    exercises = {}
    for one in sorted(request.candidates, key=lambda c: c.id):
        mine = {head: credit for head, credit in one.credits.items() if head in groups}
        credit = roll_up(mine, groups)
        covers = frozenset(head for head, share in mine.items() if share >= fullest[head])
        prescription = prescribe(
            prescriptions_of(request), one.compound, one.grades.loadability, one.grades.near_failure, one.reps
        )
        work = sum(prescription.reps) / 2 * one.rep_seconds * (2 if one.one_sided else 1)
        exercises[one.id] = ExerciseFacts(
            candidate=one,
            id=one.id,
            credit=credit,
            direct=frozenset(group for group, share in credit.items() if share == 1),
            covers=covers,
            long=frozenset(groups[head] for head in covers & one.long_heads),
            variety=frozenset((groups[head], action) for head in covers for action in actions[head] & one.actions),
            set_seconds=work + one.rest_seconds,
            slot_seconds=max(0.0, one.setup_seconds - shortest_rest),
            setup_minutes=one.setup_seconds / 60,
            equipment=one.equipment,
            loss=request.weights.grade * (1 - quality(one.grades, request.weights.grades)),
            barred_by=frozenset(_barred_by(one, request)),
            prescription=prescription,
        )
    return Facts(
        request=request,
        exercises=exercises,
        targets=targets,
        factor={target.group: request.weights.priority[target.priority] for target in request.targets},
        group_of_head=groups,
        near=_near(request),
        budgets={
            day.id: (day.minutes - request.warm_up_minutes) * 60 * longer.get(day.id, 1.0) for day in request.days
        },
    )


def quality(grades: Grades, weights: GradeWeights) -> float:
    """Return the weighted mean of the four grades, 0 (all 1) to 1 (all 5)."""
    shares = {f.name: float(getattr(weights, f.name)) for f in fields(weights)}
    graded = {name: float(getattr(grades, name) - 1) / 4 for name in shares}
    return sum(share * graded[name] for name, share in shares.items()) / sum(shares.values())


def _barred_by(one: Candidate, request: Request) -> list[Demand]:
    found = [Demand("avoid", one.id)] if one.id in request.avoid else []
    if request.equipment is not None and one.equipment not in request.equipment:
        found.append(Demand("equipment", one.equipment))
    for limit in request.limits:
        if limit.name in (one.actions if limit.kind == "action" else one.tags):
            found.append(Demand(limit.kind, limit.name))
    return found


def _near(request: Request) -> tuple[tuple[str, str], ...]:
    """Return the pairs of days closer than the minimum; the week repeats, so Sunday is next to Monday."""
    found = []
    for first, second in combinations(sorted(request.days, key=lambda day: day.weekday), 2):
        ahead = (second.weekday - first.weekday) % DAYS_PER_WEEK
        if min(ahead, DAYS_PER_WEEK - ahead) * HOURS_PER_DAY < request.spacing_hours:
            found.append((first.id, second.id))
    return tuple(found)
