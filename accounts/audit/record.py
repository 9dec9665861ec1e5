"""Write entries of the audit."""

import datetime as dt
from collections.abc import Collection

from django.utils import timezone

from accounts.models import AuditEntry, Membership


def record_look(*, membership: Membership, clients: Collection[int], page: str) -> None:
    """Keep that a coach looked at these clients' pages today; one query, none without clients."""
    if clients:
        rows = [_entry(membership, AuditEntry.Kind.SAW, page, client) for client in sorted(clients)]
        AuditEntry.objects.bulk_create(rows, ignore_conflicts=True)


def record_change(*, membership: Membership, clients: Collection[int], page: str) -> None:
    """Keep that a coach changed something, about these clients or about nobody in particular."""
    about = sorted(clients) or [None]
    rows = [_entry(membership, AuditEntry.Kind.CHANGED, page, client) for client in about]
    AuditEntry.objects.bulk_create(rows, ignore_conflicts=True)


def forget_before(*, now: dt.datetime, keep_days: int) -> int:
    """Delete entries older than `keep_days` and return how many."""
    return AuditEntry.objects.filter(day__lt=(now - dt.timedelta(days=keep_days)).date()).delete()[0]


def _entry(membership: Membership, kind: str, page: str, client: int | None) -> AuditEntry:
    return AuditEntry(
        practice_id=membership.practice_id,
        actor_id=membership.user_id,
        client_id=client,
        kind=kind,
        page=page[:80],
        day=timezone.now().date(),
    )
