"""What is known of many clients, as fitting asks for it: five queries, however many there are."""

import datetime as dt
from collections import defaultdict
from collections.abc import Sequence

from django.db.models import Exists, Max, OuterRef

from accounts.models import Client
from coaching.models import FlagRow, StrengthPoint
from coaching.recompute.calendar import WEEK, week_of
from logbook.models import SetLog
from programs.fit.model import ClientFacts
from programs.models import ClientEquipment
from programs.services.client_limits import limits_by_client
from programs.services.limits import Limits

# An older estimate says too little; older sets do not make an exercise familiar (programs/fit/dose.py).
STRENGTH_HOLDS = dt.timedelta(weeks=26)
DONE_SINCE = dt.timedelta(weeks=13)

Pain = dict[int, dict[int, tuple[int, str]]]


def load_facts(clients: Sequence[Client], first: dt.date) -> dict[int, ClientFacts]:
    """Return the facts by client's id, as they are to be judged for days from `first` on (docs/methods/fitting.md).

    Limits are those that hold on `first` or later; how long ago something was is counted to `first`, where that is to
    come; pain, equipment, minutes and training status have no days and are today's.
    """
    if not clients:
        return {}
    today = {client.pk: client.user.today() for client in clients}
    begins = {pk: max(first, day) for pk, day in today.items()}
    limits = limits_by_client(clients, first)
    equipment: dict[int, set[int]] = defaultdict(set)
    for pk, item in ClientEquipment.objects.filter(client__in=clients).order_by().values_list("client", "equipment"):
        equipment[pk].add(item)
    pain, sites = _pain(clients, today)
    e1rm, sides = _strength(clients, begins)
    done = _done(clients, begins)
    return {
        client.pk: ClientFacts(
            pk=client.pk,
            status=client.training_status,
            unit=client.user.load_unit,
            minutes=client.minutes_per_session,
            equipment=frozenset(equipment[client.pk]) if client.pk in equipment else None,
            limits=limits.get(client.pk, Limits()),
            pain=pain[client.pk],
            pain_sites=sites[client.pk],
            e1rm=e1rm[client.pk],
            done=done[client.pk],
            sides=sides[client.pk],
        )
        for client in clients
    }


def _pain(clients: Sequence[Client], today: dict[int, dt.date]) -> tuple[Pain, dict[int, dict[str, int]]]:
    """Return what the flags that say stop name, of this week and the last: the worker may not have come to this one."""
    pain: Pain = defaultdict(dict)
    sites: dict[int, dict[str, int]] = defaultdict(dict)
    since = week_of(min(today.values())) - WEEK
    rows = FlagRow.objects.filter(client__in=clients, week__gte=since, rule_id="pain.report", severity="stop")
    for pk, week, subject, params in rows.order_by("week", "pk").values_list("client", "week", "subject", "params"):
        if week < week_of(today[pk]) - WEEK:
            continue
        score = int(params.get("score", 0))
        for exercise in params.get("exercises", ()):
            pain[pk][int(exercise)] = score, subject
        if not params.get("exercises"):
            sites[pk][subject] = score
    return pain, sites


def _strength(
    clients: Sequence[Client], begins: dict[int, dt.date]
) -> tuple[dict[int, dict[int, tuple[float, int]]], dict[int, dict[int, tuple[float, float, float]]]]:
    """Return each exercise's newest estimate with its age on the first day, and how far the sides were apart in it."""
    e1rm: dict[int, dict[int, tuple[float, int]]] = defaultdict(dict)
    sides: dict[int, dict[int, tuple[float, float, float]]] = defaultdict(dict)
    first = min(begins.values()) - STRENGTH_HOLDS
    newer = StrengthPoint.objects.filter(
        client=OuterRef("client"), exercise=OuterRef("exercise"), date__gt=OuterRef("date")
    )
    rows = StrengthPoint.objects.filter(~Exists(newer), client__in=clients, date__gte=first).order_by("pk")
    for pk, exercise, day, kg, inputs in rows.values_list("client", "exercise", "date", "e1rm_kg", "inputs"):
        e1rm[pk][exercise] = kg, (begins[pk] - day).days
        if both := (inputs or {}).get("sides"):
            low, middle, high = both["percent"]
            sides[pk][exercise] = low, middle, high
    return e1rm, sides


def _done(clients: Sequence[Client], begins: dict[int, dt.date]) -> dict[int, dict[int, int]]:
    done: dict[int, dict[int, int]] = defaultdict(dict)
    since = min(begins.values()) - DONE_SINCE
    rows = SetLog.objects.filter(client__in=clients, session__date__gte=since, deleted_at=None, warm_up=False)
    # The session's day is the client's own; that of the moment would be the server's.
    last = rows.order_by().values("client", "exercise").annotate(last=Max("session__date"))
    for pk, exercise, day in last.values_list("client", "exercise", "last"):
        done[pk][exercise] = (begins[pk] - day).days
    return done
