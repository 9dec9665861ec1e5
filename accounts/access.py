"""The only door to another person's data.

`*_visible_to` and `*_coached_by` return querysets that a view may start from; `access_*` return one object or refuse:
404 when the user may not know that it exists, 403 when they may see it but not change it. A model that holds a
person's data has a queryset with `visible_to(user)` and `writable_by(user)`, both built on this module.
"""

from typing import Any

from django.core.exceptions import PermissionDenied
from django.db.models import Model, Q, QuerySet
from django.http import Http404
from django.utils import timezone

from accounts.models import Client, Engagement, Membership, Practice


def running(prefix: str = "") -> Q:
    """Match rows whose started_on..ended_on holds today (UTC)."""
    today = timezone.now().date()
    return Q(**{f"{prefix}started_on__lte": today}) & (
        Q(**{f"{prefix}ended_on": None}) | Q(**{f"{prefix}ended_on__gte": today})
    )


def membership_of(user: Any) -> Membership | None:
    """Return the user's running membership with its practice, kept on the user for the request's length."""
    if not getattr(user, "is_authenticated", False):
        return None
    if not hasattr(user, "_running_membership"):
        user._running_membership = (
            Membership.objects.filter(running(), user=user).select_related("practice").order_by("pk").first()
        )
    return user._running_membership


def client_of(user: Any) -> Client | None:
    """Return the user's own client record, if they are trained by someone; kept like the membership."""
    if not getattr(user, "is_authenticated", False):
        return None
    if not hasattr(user, "_own_client"):
        user._own_client = Client.objects.filter(user=user).select_related("user", "practice").first()
    return user._own_client


def practice_of(user: Any) -> Practice | None:
    """Return the practice whose library the user reads, as coach or as client."""
    membership = membership_of(user)
    if membership:
        return membership.practice
    client = client_of(user)
    return client.practice if client else None


def clients_coached_by(user: Any, clients: QuerySet[Client] | None = None) -> QuerySet[Client]:
    """Clients whose plan the user may write: running engagement, or owner of the client's practice."""
    clients = Client.objects.all() if clients is None else clients
    membership = membership_of(user)
    if membership is None:
        return clients.none()
    if membership.role == Membership.Role.OWNER:
        return clients.filter(practice=membership.practice)
    engaged = Engagement.objects.filter(running(), coach=membership).values("client")
    # The practice is asked again so that an engagement cannot outlive a client's move elsewhere.
    return clients.filter(pk__in=engaged, practice=membership.practice)


def clients_visible_to(user: Any, clients: QuerySet[Client] | None = None) -> QuerySet[Client]:
    """Clients whose data the user may read: those coached, and the user's own record."""
    clients = Client.objects.all() if clients is None else clients
    if not getattr(user, "is_authenticated", False):
        return clients.none()
    coached = clients_coached_by(user).values("pk")
    return clients.filter(Q(user=user) | Q(pk__in=coached))


def access_read(rows: QuerySet[Any], user: Any, **lookup: Any) -> Any:
    """Return the one row of `rows.visible_to(user)` that matches, or raise Http404."""
    row = rows.visible_to(user).filter(**lookup).first()
    if row is None:
        raise Http404
    return row


def access_write(rows: QuerySet[Any], user: Any, **lookup: Any) -> Any:
    """Return the row if the user may change it; Http404 when unseen, PermissionDenied when read-only."""
    row: Model = access_read(rows, user, **lookup)
    if not rows.writable_by(user).filter(pk=row.pk).exists():
        raise PermissionDenied
    return row


def access_client(user: Any, pk: int) -> Client:
    """Return a client whose data the user may read."""
    return access_read(Client.objects.select_related("user", "practice"), user, pk=pk)


def access_client_as_coach(user: Any, pk: int) -> Client:
    """Return a client whose plan the user may write."""
    return access_write(Client.objects.select_related("user", "practice"), user, pk=pk)


def access_own_client(user: Any) -> Client:
    """Return the user's own client record, for the pages on which a person logs their own training."""
    client = client_of(user)
    if client is None:
        raise Http404
    return client


def access_membership(user: Any, *, owner: bool = False) -> Membership:
    """Return the user's running membership; 404 for people who coach nobody, 403 where an owner is needed."""
    membership = membership_of(user)
    if membership is None:
        raise Http404
    if owner and membership.role != Membership.Role.OWNER:
        raise PermissionDenied
    return membership
