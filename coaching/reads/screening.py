"""Rounds of screening answers in words."""

from collections.abc import Iterable
from dataclasses import dataclass

from logbook.models import Clearance, Screening
from logbook.screening_questions import OUTCOMES, WORDS
from periodization.screening import QUESTIONS


@dataclass(frozen=True, slots=True)
class Round:
    """`yes` and `no` are questions in the words of their version."""

    screening: Screening
    words: str
    yes: list[str]
    no: list[str]
    clearances: list[Clearance]


def rounds_of(rows: Iterable[Screening]) -> list[Round]:
    """Return the rounds as the coach reads them; prefetch the clearances with who recorded them."""
    return [_round(row) for row in rows]


def _round(row: Screening) -> Round:
    words = WORDS.get(row.version, {})
    asked = [code for code in QUESTIONS if code in row.answers and code in words]
    yes = [str(words[code]) for code in asked if row.answers[code]]
    no = [str(words[code]) for code in asked if not row.answers[code]]
    return Round(row, str(OUTCOMES.get(row.outcome, "")), yes, no, list(row.clearances.all()))
