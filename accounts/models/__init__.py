"""Who people are and who trains whom."""

from accounts.models.client import Client, Engagement, TrainingStatus
from accounts.models.invitation import Invitation
from accounts.models.practice import Membership, Practice
from accounts.models.user import LoadUnit, User

__all__ = [
    "Client",
    "Engagement",
    "Invitation",
    "LoadUnit",
    "Membership",
    "Practice",
    "TrainingStatus",
    "User",
]
