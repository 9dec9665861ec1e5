"""What the worker derives from the log, and what the coach decides."""

from coaching.models.decision import Decision
from coaching.models.erasure import Erasure
from coaching.models.flag import FlagRow, Prompt
from coaching.models.letter import WeeklyLetter
from coaching.models.note import CoachNote
from coaching.models.saved_view import SavedView
from coaching.models.strength import StrengthPoint
from coaching.models.week import WeekSummary

__all__ = [
    "CoachNote",
    "Decision",
    "Erasure",
    "FlagRow",
    "Prompt",
    "SavedView",
    "StrengthPoint",
    "WeekSummary",
    "WeeklyLetter",
]
