"""A copy's differences in words, for the coach and the client."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from programs.models import Adaptation, Assignment
from programs.sentences import Words, in_words, words_for
from programs.services.adaptation_words import exercises_named, fit_names, what_of, why_of
from programs.services.adaptations import change_of


@dataclass(frozen=True, slots=True)
class Line:
    row: Adaptation
    what: str
    why: str


def lines_of(assignment: Assignment, unit: str) -> list[Line]:
    """Return every difference of one copy, undone ones too, newest last (three queries)."""
    rows = list(Adaptation.objects.filter(assignment=assignment).select_related("created_by", "undone_by"))
    return said(rows, unit)


def said(rows: Sequence[Adaptation], unit: str) -> list[Line]:
    """Put rows into words in a unit of load (two queries; none without rows)."""
    if not rows:
        return []
    named = {pk for row in rows for pk in exercises_named(change_of(row), row.reason_params)}
    words = words_for(unit, named, fit_names())
    return [line(row, words) for row in rows]


def line(row: Adaptation, words: Words) -> Line:
    what = what_of(change_of(row), row.reason_params)
    why = [in_words(one.code, one.params, words) for one in why_of(row.reason, row.reason_params)]
    return Line(row, in_words(what.code, what.params, words), " ".join(why))


def about(lines: Iterable[Line], slot_key: str, exercise: int) -> list[Line]:
    """Return the lines that say why a planned slot is as it is; what holds for the whole program is left out."""
    found = []
    for one in lines:
        row = one.row
        if row.undone_at is not None:
            continue
        if slot_key in row.slots if row.slots else (row.to_exercise_id or row.exercise_id) == exercise:
            found.append(one)
    return found
