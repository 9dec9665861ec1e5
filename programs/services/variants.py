"""The variant of an exercise to name to one client: the first of its list that is open to them."""

import datetime as dt

from django.db.models import Exists, OuterRef, Q, Subquery

from accounts.models import Client
from programs.models import ClientEquipment, ClientLimit, Exercise, ExerciseLink


def variant_name(kind: ExerciseLink.Kind, client: Client, day: dt.date) -> Subquery:
    """Return, for a query of exercises, the name of the first variant of a kind; NULL where none is listed and open.

    Open means what `limits.violations` means by an empty list, on equipment the client has (without a list of it:
    any), said as one subquery: whoever loads many exercises gets the names without a query more. Archived exercises
    and those of other practices are never named.
    """
    held = ClientLimit.objects.filter(client=client).holding(day).order_by()
    closed = held.exclude(limit=None).values("limit")
    stressed = Exercise.limits.through.objects.filter(limit__in=closed).values("exercise")
    named = held.exclude(exercise=None).values("exercise")
    has = ClientEquipment.objects.filter(client=client).order_by()
    at_hand = Q(equipment__in=has.values("equipment")) | ~Exists(has)
    open_to = (
        Exercise.objects.filter(Q(practice=None) | Q(practice=client.practice_id), archived_at=None)
        .filter(Q(limits_judged=True) | ~Exists(closed))
        .filter(at_hand)
        .exclude(pk__in=stressed)
        .exclude(pk__in=named)
        .order_by()
    )
    links = ExerciseLink.objects.filter(exercise=OuterRef("pk"), kind=kind, other__in=open_to)
    return Subquery(links.order_by("position", "pk").values("other__name")[:1])
