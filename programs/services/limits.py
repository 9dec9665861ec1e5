"""Which exercises a client must not be given, by the joint stresses and positions that are closed to them."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import QuerySet

from programs.models import Exercise, Limit

# Codes beside the slugs of limits that `violations` can return.
AVOIDED = "avoided"
NOT_JUDGED = "not-judged"


@dataclass(frozen=True, slots=True)
class Limits:
    """What is closed to a client: slugs of joint stresses and positions, and single exercises by id."""

    slugs: frozenset[str] = frozenset()
    exercises: frozenset[int] = frozenset()

    def __bool__(self) -> bool:
        return bool(self.slugs or self.exercises)


def limits_of(slugs: Iterable[str] = (), exercises: Iterable[int] = ()) -> Limits:
    """Return limits from any iterables; ValueError for a slug that the list of limits does not have (one query)."""
    wanted = frozenset(slugs)
    unknown = wanted - set(Limit.objects.filter(slug__in=wanted).values_list("slug", flat=True)) if wanted else ()
    if unknown:
        raise ValueError(f"unknown limits: {', '.join(sorted(unknown))}")
    return Limits(wanted, frozenset(exercises))


def violations(exercise: Exercise, limits: Limits) -> list[str]:
    """Return why `exercise` is closed under `limits`: slugs in the list's order, then `AVOIDED`.

    Empty means it is open. An exercise that nobody judged is closed as soon as there is any joint stress or position
    to keep from (`NOT_JUDGED`). Prefetch `limits` when asking for many.
    """
    found = [row.slug for row in exercise.limits.all() if row.slug in limits.slugs]
    if limits.slugs and not exercise.limits_judged:
        found.append(NOT_JUDGED)
    if exercise.pk in limits.exercises:
        found.append(AVOIDED)
    return found


def exercises_within(queryset: QuerySet[Exercise], limits: Limits) -> QuerySet[Exercise]:
    """Narrow `queryset` to the exercises for which `violations` is empty."""
    if limits.slugs:
        has = Exercise.limits.through.objects.filter(limit__slug__in=limits.slugs)
        queryset = queryset.filter(limits_judged=True).exclude(pk__in=has.values("exercise"))
    return queryset.exclude(pk__in=limits.exercises) if limits.exercises else queryset
