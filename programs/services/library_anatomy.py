"""Muscles with their heads, and how many exercises train each."""

from dataclasses import dataclass

from django.db.models import Count, Q

from accounts.models import Practice
from programs.models import Head, HeadCredit, Muscle
from programs.services.exercise_visible import exercises_of


@dataclass(frozen=True, slots=True)
class HeadLine:
    """`direct` exercises count a whole set for the head, `all` count at all."""

    head: Head
    direct: int
    all: int


@dataclass(frozen=True, slots=True)
class MuscleLine:
    muscle: Muscle
    heads: list[HeadLine]


def anatomy_lines(practice: Practice | None) -> list[MuscleLine]:
    """Return every muscle in the library's order. Four queries."""
    counts = {
        row["head"]: (row["direct"], row["all"])
        for row in HeadCredit.objects.filter(exercise__in=exercises_of(practice))
        .order_by()
        .values("head")
        .annotate(direct=Count("pk", filter=Q(credit__gte=1)), all=Count("pk"))
    }
    muscles = Muscle.objects.prefetch_related("heads__actions", "heads__group")
    return [
        MuscleLine(muscle, [HeadLine(head, *counts.get(head.pk, (0, 0))) for head in muscle.heads.all()])
        for muscle in muscles
    ]
