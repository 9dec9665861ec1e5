"""Which exercises and equipment a practice chooses from."""

from django.db.models import Q, QuerySet

from accounts.models import Practice
from programs.models import Equipment, Exercise


def exercises_of(practice: Practice | None) -> QuerySet[Exercise]:
    """Return the exercises in use: the library's and the practice's own, without what is archived."""
    return Exercise.objects.filter(Q(practice=None) | Q(practice=practice), archived_at=None)


def equipment_of(practice: Practice | None) -> QuerySet[Equipment]:
    """Return the equipment in use: the library's and the practice's own, without what is archived."""
    return Equipment.objects.filter(Q(practice=None) | Q(practice=practice), archived_at=None)
