"""Write a practice's own grades beside the library's."""

from collections.abc import Mapping
from dataclasses import dataclass

from django.db import transaction

from accounts.models import Practice, User
from programs.models import GRADE_NAMES, Exercise, GradeOverride


@dataclass(frozen=True, slots=True)
class OwnGrade:
    value: int
    reason: str


@transaction.atomic
def grades_save(*, practice: Practice, exercise: Exercise, author: User, grades: Mapping[str, OwnGrade]) -> None:
    """Make `grades` the practice's own for `exercise`; a grade that is not among them is the library's again.

    A grade that stays as it was keeps its author and its date.
    """
    kept = {row.grade: row for row in GradeOverride.objects.filter(practice=practice, exercise=exercise)}
    for name in GRADE_NAMES:
        own, row = grades.get(name), kept.get(name)
        if own is None:
            if row:
                row.delete()
        elif row is None or (row.value, row.reason) != (own.value, own.reason):
            row = row or GradeOverride(practice=practice, exercise=exercise, grade=name)
            row.value, row.reason, row.author = own.value, own.reason, author
            row.save()
