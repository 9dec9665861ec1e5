"""Who people are and who trains whom."""

from accounts.models.audit import AuditEntry
from accounts.models.client import Client, Engagement, TrainingStatus
from accounts.models.cover import Cover
from accounts.models.invitation import Invitation
from accounts.models.practice import Membership, Practice
from accounts.models.user import LoadUnit, User

__all__ = [
    "AuditEntry",
    "Client",
    "Cover",
    "Engagement",
    "Invitation",
    "LoadUnit",
    "Membership",
    "Practice",
    "TrainingStatus",
    "User",
]
