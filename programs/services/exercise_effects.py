"""Whose plans a change in the library touches."""

from django.db.models import Min, QuerySet

from programs.models import Exercise, PlannedSlot
from programs.signals import plan_changed


def exercises_changed(exercises: QuerySet[Exercise]) -> None:
    """Tell that what these exercises count for, or can be loaded with, changed; call inside the transaction.

    Everything derived is made again from the first day on which a client's plan names one of them.
    """
    plans = PlannedSlot.objects.filter(exercise__in=exercises).order_by()
    for row in plans.values("session__client_id").annotate(since=Min("session__date")):
        plan_changed.send(sender=Exercise, client_id=row["session__client_id"], since=row["since"])
