"""What to do instead: named substitutes first, then exercises that train nearly the same."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import sqrt

from django.db.models import QuerySet

from accounts.models import Practice
from programs.models import Equipment, Exercise, ExerciseLink, Head, HeadCredit
from programs.services.exercise_visible import exercises_of
from programs.services.exercise_why import Mix, Vector, why_instead

# Below this the two train different things, and calling one a substitute for the other would mislead.
LEAST_LIKENESS = 0.6
# Of the likeness, how much is about being loaded while long; the rest is about which heads get the sets. A judgement.
LONG_SHARE = 0.2


@dataclass(frozen=True, slots=True)
class Substitute:
    """`likeness` is 0..1; `reason` says in words why it stands where it stands."""

    exercise: Exercise
    listed: bool
    likeness: float
    reason: str


def cosine(a: Vector, b: Vector) -> float:
    """Return how alike two vectors of credits are, 0..1; 1 when both are empty, 0 when only one is."""
    if not a or not b:
        return float(not a and not b)
    dot = sum(value * b[key] for key, value in a.items() if key in b)
    return dot / (sqrt(sum(v * v for v in a.values())) * sqrt(sum(v * v for v in b.values())))


def substitutes_for(
    exercise: Exercise,
    practice: Practice | None,
    equipment: Iterable[Equipment | int] | None = None,
    limit: int = 12,
) -> list[Substitute]:
    """Return what a practice may do instead of `exercise`, best first.

    `equipment` limits the answer to what is at hand (rows or ids); None means anything. Does not check that the caller
    may see the practice. Four queries, whatever the size of the library.
    """
    candidates = exercises_of(practice).exclude(pk=exercise.pk).select_related("equipment")
    if equipment is not None:
        candidates = candidates.filter(equipment__in=list(equipment))
    return _ranked([exercise], candidates)[exercise.pk][:limit]


def substitutes_for_many(
    exercises: Sequence[Exercise], practice: Practice | None, candidates: QuerySet[Exercise] | None = None
) -> dict[int, list[Substitute]]:
    """Return by id what a practice may do instead of each exercise on any equipment, best first, in four queries.

    `candidates` are those of the practice, all of them when not given.
    """
    rows = exercises_of(practice) if candidates is None else candidates
    return _ranked(exercises, rows.select_related("equipment"))


def _ranked(exercises: Sequence[Exercise], candidates: QuerySet[Exercise]) -> dict[int, list[Substitute]]:
    rows = {row.pk: row for row in candidates}
    sets, long, heads = _credits([*rows, *(exercise.pk for exercise in exercises)])
    links = _listed(exercises)
    found = {}
    for exercise in exercises:
        listed, before = links[exercise.pk], Mix(sets[exercise.pk], long[exercise.pk])
        like = []
        for pk, row in rows.items():
            alike = (1 - LONG_SHARE) * cosine(before.sets, sets[pk]) + LONG_SHARE * cosine(before.long, long[pk])
            fits = alike >= LEAST_LIKENESS and row.rep_unit == exercise.rep_unit
            if pk != exercise.pk and (pk in listed or fits):
                reason = why_instead(before, Mix(sets[pk], long[pk]), heads, named=pk in listed)
                like.append(Substitute(row, pk in listed, round(alike, 3), reason))
        like.sort(key=lambda s: (listed.get(s.exercise.pk, len(listed)), -s.likeness, s.exercise.name))
        found[exercise.pk] = like
    return found


def _credits(ids: list[int]) -> tuple[dict[int, Vector], dict[int, Vector], dict[int, Head]]:
    """Read every credit of the exercises: all, those loaded while long, and the heads by id."""
    sets: dict[int, Vector] = defaultdict(dict)
    long: dict[int, Vector] = defaultdict(dict)
    # Plain values: thousands of rows are compared, and only the few dozen heads are ever named.
    rows = HeadCredit.objects.filter(exercise__in=ids).order_by()
    for exercise, head, credit, loaded_long in rows.values_list("exercise", "head", "credit", "loaded_long"):
        sets[exercise][head] = credit
        if loaded_long:
            long[exercise][head] = credit
    return sets, long, {head.pk: head for head in Head.objects.select_related("muscle", "group")}


def _listed(exercises: Sequence[Exercise]) -> dict[int, dict[int, int]]:
    """Return the named substitutes of each exercise with their rank."""
    links = ExerciseLink.objects.filter(exercise__in=exercises, kind=ExerciseLink.Kind.SUBSTITUTE)
    found: dict[int, dict[int, int]] = defaultdict(dict)
    for exercise, other in links.order_by("exercise", "position").values_list("exercise", "other"):
        found[exercise][other] = len(found[exercise])
    return found
