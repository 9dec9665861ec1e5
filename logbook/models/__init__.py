"""What was done, and the requests to recompute what follows from it."""

from logbook.models.calendar_feed import CalendarFeed
from logbook.models.checkin import BodyMass, CheckIn
from logbook.models.comment import Comment, UnreadComment
from logbook.models.log_import import LogImport
from logbook.models.operation import Operation
from logbook.models.pain import PainReport
from logbook.models.past_run import PastRun
from logbook.models.recompute_request import RecomputeRequest
from logbook.models.screening import Clearance, Screening
from logbook.models.session import Session
from logbook.models.set_log import SetHistory, SetLog, Side
from logbook.models.skip import SlotSkip

__all__ = [
    "BodyMass",
    "CalendarFeed",
    "CheckIn",
    "Clearance",
    "Comment",
    "LogImport",
    "Operation",
    "PainReport",
    "PastRun",
    "RecomputeRequest",
    "Screening",
    "Session",
    "SetHistory",
    "SetLog",
    "Side",
    "SlotSkip",
    "UnreadComment",
]
