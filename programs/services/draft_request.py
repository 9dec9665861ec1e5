"""From what a coach asks for to what the solver is given: the library as the practice sees and grades it."""

from collections.abc import Iterable

from accounts.models import Practice
from periodization.draft import (
    DEFAULT_PRESCRIPTIONS,
    Candidate,
    ExerciseCount,
    Grades,
    Head,
    Limit,
    Prescription,
    Prescriptions,
    Request,
    Stop,
    Target,
    TrainingDay,
)
from programs.models import GRADE_NAMES, Exercise, HeadCredit, JointAction
from programs.models import Head as HeadRow
from programs.models.exercise import RepUnit
from programs.services.draft_ask import Ask, AskedDose, weights_of
from programs.services.grades import with_grades
from programs.services.limits import NOT_JUDGED

# What is held or walked has no repetitions; these are about a second each. CHOSEN.
HELD = (20, 40)


def day_id(number: int) -> str:
    """Return the name by which the solver knows the day with this number (0, 1, ...)."""
    return f"day-{number + 1}"


def day_number(day: str) -> int:
    """Return the number (0, 1, ...) of a day that the solver names."""
    return int(day.removeprefix("day-")) - 1


def request_of(ask: Ask, practice: Practice) -> Request:
    """Return the solver's request. Exercises that are put away are no candidates (six queries)."""
    return Request(
        heads=read_heads(),
        candidates=read_candidates(practice),
        days=tuple(TrainingDay(day_id(number), day.weekday, float(day.minutes)) for number, day in enumerate(ask.days)),
        targets=tuple(
            Target(
                slug,
                one.floor,
                one.ceiling,
                one.priority,
                floor_must=one.floor_must,
                heads_must=one.heads_must,
                long_must=one.long_must,
            )
            for slug, one in ask.targets.items()
        ),
        status=ask.status,
        prescriptions=_prescriptions(ask),
        equipment=None if ask.equipment is None else frozenset(str(pk) for pk in ask.equipment),
        include=frozenset(str(pk) for pk in ask.include),
        avoid=frozenset(str(pk) for pk in ask.avoid),
        limits=_limits(ask),
        counts=tuple(
            ExerciseCount(slug, day_id(number), low, high)
            for slug, one in ask.targets.items()
            for number, (low, high) in enumerate(one.exercises)
        ),
        pairs=ask.pairs,
        sets=ask.sets,
        session_cap=ask.session_cap,
        slots_per_day=ask.slots_per_day,
        spacing_must=ask.spacing_must,
        weights=weights_of(ask),
        stop=Stop(seconds=float(ask.seconds), seed=ask.seed),
    )


def _limits(ask: Ask) -> tuple[Limit, ...]:
    """Return what is closed. As in services/limits.py, what nobody judged is closed as soon as anything is."""
    closed = (*ask.limits, NOT_JUDGED) if ask.limits else ()
    return tuple(Limit("action", slug) for slug in ask.actions) + tuple(Limit("tag", slug) for slug in closed)


def read_heads() -> tuple[Head, ...]:
    """Read every head with its group and joint actions (two queries)."""
    rows = HeadRow.objects.select_related("group").prefetch_related("actions").order_by("pk")
    return tuple(
        Head(row.slug, row.group.slug if row.group else None, frozenset(action.slug for action in row.actions.all()))
        for row in rows
    )


def read_candidates(practice: Practice) -> tuple[Candidate, ...]:
    """Read every exercise that the practice can use, graded as it grades (four queries)."""
    own_or_shared = Exercise.objects.filter(practice=None) | Exercise.objects.filter(practice=practice)
    usable = own_or_shared.filter(archived_at=None)
    rows = list(with_grades(usable, practice).prefetch_related("actions", "limits").order_by("pk"))
    credits: dict[int, dict[str, float]] = {row.pk: {} for row in rows}
    long_heads: dict[int, set[str]] = {row.pk: set() for row in rows}
    found = HeadCredit.objects.filter(exercise__in=rows).order_by("pk")
    for pk, head, credit, loaded_long in found.values_list("exercise", "head__slug", "credit", "loaded_long"):
        credits[pk][head] = credit
        if loaded_long:
            long_heads[pk].add(head)
    return tuple(_candidate(row, credits[row.pk], long_heads[row.pk]) for row in rows)


def _candidate(row: Exercise, credits: dict[str, float], long_heads: Iterable[str]) -> Candidate:
    counted = row.rep_unit == RepUnit.REPS
    actions: Iterable[JointAction] = row.actions.all()
    return Candidate(
        id=str(row.pk),
        credits=credits,
        grades=Grades(*(getattr(row, name) for name in GRADE_NAMES)),
        actions=frozenset(action.slug for action in actions),
        equipment=str(row.equipment_id),
        compound=row.compound,
        one_sided=row.each_side,
        long_heads=frozenset(long_heads),
        setup_seconds=float(row.setup_s),
        rest_seconds=row.rest_s,
        rep_seconds=float(row.seconds_a_rep),
        tags=frozenset(limit.slug for limit in row.limits.all()) | ({NOT_JUDGED} if not row.limits_judged else set()),
        reps=None if counted else HELD,
    )


def _prescriptions(ask: Ask) -> Prescriptions | None:
    if not ask.compound and not ask.single:
        return None
    usual = DEFAULT_PRESCRIPTIONS[ask.status]
    return Prescriptions(_dose(ask.compound, usual.compound), _dose(ask.single, usual.single))


def _dose(asked: AskedDose | None, usual: Prescription) -> Prescription:
    return Prescription(asked.reps, asked.rir) if asked else usual
