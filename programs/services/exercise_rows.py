"""An exercise as one line of a list."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.utils.translation import gettext as _

from programs.models import GRADE_NAMES, Exercise, HeadCredit
from programs.services.grades import TITLES, WORDS


@dataclass(frozen=True, slots=True)
class GradeCell:
    title: str
    value: int
    word: str


@dataclass(frozen=True, slots=True)
class ExerciseRow:
    """`direct` and `also` name what is trained in everyday words, most counted first, each name once."""

    exercise: Exercise
    direct: list[str]
    also: list[str]
    long: bool
    grades: list[GradeCell]


INDIRECT = 0.5


def credit_word(credit: float) -> str:
    """Say what a credit means: 1 is direct, 0.5 indirect, and what lies between and below by name."""
    if credit >= 1:
        return _("direct")
    if credit > INDIRECT:
        return _("nearly direct")
    return _("indirect") if credit == INDIRECT else _("slight")


def trained(credits: Iterable[HeadCredit]) -> tuple[list[str], list[str]]:
    """Return the names of what is trained directly, and of the rest; groups where a target is set, else lay names.

    Where nothing is trained directly (a row spreads over the back), what is trained most stands for it, if it is
    nearly direct: a coach looks for a row under the back. Reads `head.group` and `head.muscle` of each credit: fetch
    them with the credits.
    """
    credits = sorted(credits, key=lambda row: -row.credit)
    most = min(1.0, credits[0].credit) if credits else 1.0
    direct = dict.fromkeys(_name(row) for row in credits if row.credit >= most > INDIRECT)
    also = dict.fromkeys(name for row in credits if (name := _name(row)) not in direct)
    return list(direct), list(also)


def exercise_rows(exercises: Iterable[Exercise]) -> list[ExerciseRow]:
    """Make the lines of a list from rows of `exercise_search`; asks the database nothing."""
    return [_row(exercise) for exercise in exercises]


def _row(exercise: Exercise) -> ExerciseRow:
    credits = list(exercise.credits.all())
    direct, also = trained(credits)
    grades = [GradeCell(str(TITLES[name]), value := getattr(exercise, name), str(WORDS[value])) for name in GRADE_NAMES]
    return ExerciseRow(exercise, direct, also, any(row.loaded_long for row in credits), grades)


def _name(row: HeadCredit) -> str:
    return row.head.group.name if row.head.group else row.head.muscle.lay_name
