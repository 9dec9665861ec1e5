"""What is due though no task took it: forgotten requests, lost drafts and tables, rows that an earlier day left."""

import datetime as dt

from django.conf import settings
from django.db.models import Max, Q, QuerySet
from django.utils import timezone

from accounts.access import running_about
from accounts.audit.record import forget_before
from accounts.models import Client, Engagement
from coaching.dispatch import dispatch
from coaching.models import WeekSummary
from coaching.recompute.rules import fingerprint
from logbook.models import RecomputeRequest
from logbook.services.past_run import past_sweep
from programs.models import Assignment
from programs.services.draft_run import draft_sweep
from programs.services.run_stop import silent


def sweep(now: dt.datetime | None = None) -> int:
    """Dispatch each client that is due once, and each draft and table of past training that was lost;
    return how many."""
    now = now or timezone.now()
    sent_on = draft_sweep(now) + past_sweep(now)
    due = dict.fromkeys([*waiting_clients(now), *clients_behind(now)])
    for client_id in due:
        dispatch(client_id)
    forget_before(now=now, keep_days=settings.AUDIT_KEEP_DAYS)
    return len(due) + sent_on


def waiting_clients(now: dt.datetime) -> list[int]:
    """Clients whose oldest request is older than the sweep's interval, longest waiting first; also those whose request
    is of a clock that was put back since."""
    overdue = silent("created_at", now, settings.RECOMPUTE_SWEEP_S / 2)
    rows = RecomputeRequest.objects.filter(overdue).order_by("created_at")
    return list(dict.fromkeys(rows.values_list("client_id", flat=True)))


def clients_behind(now: dt.datetime) -> list[int]:
    """Trained clients for whom a new day has begun, or a rule has changed, since their rows were computed.

    So the new week's row and the flag for a missed session appear though nobody logged anything.
    """
    clients = {client.pk: client for client in trained_clients(now).select_related("user")}
    known: dict[int, dt.date] = {}
    stale: set[int] = set()
    rows = WeekSummary.objects.filter(client__in=clients).values_list("client", "rules").annotate(Max("as_of"))
    prints = {pk: fingerprint(client) for pk, client in clients.items()}
    for pk, rules, last in rows.order_by():
        known[pk] = max(last, known.get(pk, last))
        if rules != prints[pk]:
            stale.add(pk)
    return sorted(
        pk for pk, client in clients.items() if pk in stale or pk not in known or known[pk] < client.user.day_of(now)
    )


def trained_clients(now: dt.datetime) -> QuerySet[Client]:
    """Clients with a running engagement or assignment; the others' weeks stand still until something is logged."""
    engaged = Q(pk__in=Engagement.objects.filter(running_about(now)).values("client"))
    return Client.objects.filter(engaged | Q(assignments__status=Assignment.Status.ACTIVE)).distinct()
