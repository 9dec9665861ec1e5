"""Exercises that can be proposed to a week: of the library and the practice, best first."""

from collections.abc import Iterable, Mapping
from typing import Any

from django.db.models import Case, Exists, F, IntegerField, OuterRef, Value, When

from programs.models import Exercise, HeadCredit
from programs.services.program_exercises import NEARLY_DIRECT, usable_by
from programs.services.tally_facts import ExerciseFacts, facts_of

# Enough for a few of each muscle; more would only take time.
MOST = 60


def proposable(
    user: Any, groups: Iterable[str], there: Iterable[int], known: Mapping[int, ExerciseFacts]
) -> Mapping[int, ExerciseFacts]:
    """Return exercises that train a head of these groups directly or nearly so (two queries); the facts of some are
    `known`.

    First those on equipment that an exercise of `there` uses, which is likely to be had and costs no new set-up; then
    by the sum of the library's grades.
    """
    direct = HeadCredit.objects.filter(
        exercise=OuterRef("pk"), credit__gte=NEARLY_DIRECT, head__group__slug__in=list(groups)
    )
    grades = F("grade_activation") + F("grade_long_length") + F("grade_loadability") + F("grade_near_failure")
    in_use = Exercise.objects.filter(pk__in=list(there)).values("equipment")
    elsewhere = Case(When(equipment__in=in_use, then=Value(0)), default=Value(1), output_field=IntegerField())
    return facts_of(usable_by(user).filter(Exists(direct)).order_by(elsewhere, -grades, "name", "pk")[:MOST], known)
