"""The only door to another person's data.

`*_visible_to` and `*_coached_by` return querysets that a view may start from; `access_*` return one object or refuse:
404 when the user may not know that it exists, 403 when they may see it but not change it. A model that holds a
person's data has a queryset with `visible_to(user)` and `writable_by(user)`, both built on this module.

Days: memberships and engagements run from a day to a day, both included, counted where the practice is. An engagement
that ended today still opens the client's page today and answers 404 from midnight on; a membership is ended as of
yesterday, so that a coach who was let go is out at once (services/membership.py).

Not checked here: whether a second factor is set up (accounts/middleware.py), and whether an address is verified
(allauth refuses the sign-in). A user who was made inactive has no rights here even if an object of theirs is at hand.
"""

import datetime as dt
from typing import Any

from django.core.exceptions import PermissionDenied
from django.db.models import F, Model, Q, QuerySet
from django.http import Http404
from django.utils import timezone

from accounts.models import Client, Engagement, Membership, Practice, User


def running(prefix: str = "", on: dt.date | None = None) -> Q:
    """Match rows whose started_on..ended_on holds the day `on` (default: today in UTC)."""
    day = on or timezone.now().date()
    return Q(**{f"{prefix}started_on__lte": day}) & (
        Q(**{f"{prefix}ended_on": None}) | Q(**{f"{prefix}ended_on__gte": day})
    )


def running_about(now: dt.datetime) -> Q:
    """Match rows that run at `now` in some zone: whether one does depends on its practice's own day (`runs_on`)."""
    today, day = now.astimezone(dt.UTC).date(), dt.timedelta(days=1)
    return Q(started_on__lte=today + day) & (Q(ended_on=None) | Q(ended_on__gte=today - day))


def is_known(user: Any) -> bool:
    """Say whether this is a person who is signed in and whose account is not closed."""
    return bool(getattr(user, "is_authenticated", False) and getattr(user, "is_active", False))


def membership_of(user: Any) -> Membership | None:
    """Return the user's running membership with its practice, kept on the user for the request's length."""
    if not is_known(user):
        return None
    if not hasattr(user, "_running_membership"):
        near = (
            Membership.objects.filter(running_about(timezone.now()), user=user)
            .select_related("practice")
            .order_by(F("ended_on").desc(nulls_first=True), "pk")
        )
        user._running_membership = next((row for row in near if row.runs_on(row.practice.today())), None)
    return user._running_membership


def client_of(user: Any) -> Client | None:
    """Return the user's own client record, if they are or were trained by someone; kept like the membership."""
    if not is_known(user):
        return None
    if not hasattr(user, "_own_client"):
        user._own_client = Client.objects.filter(user=user).select_related("user", "practice").first()
    return user._own_client


def forget(user: Any) -> None:
    """Drop what was kept on the user, after a service changed it within the same request."""
    for kept in ("_running_membership", "_own_client"):
        if hasattr(user, kept):
            delattr(user, kept)


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
    engaged = Engagement.objects.filter(running(on=membership.practice.today()), coach=membership).values("client")
    # The practice is asked again so that an engagement cannot outlive a client's move elsewhere.
    return clients.filter(pk__in=engaged, practice=membership.practice)


def clients_visible_to(user: Any, clients: QuerySet[Client] | None = None) -> QuerySet[Client]:
    """Clients whose data the user may read: those coached, and the user's own record."""
    clients = Client.objects.all() if clients is None else clients
    if not is_known(user):
        return clients.none()
    coached = clients_coached_by(user).values("pk")
    return clients.filter(Q(user=user) | Q(pk__in=coached))


def coaches_of(client: Client) -> QuerySet[User]:
    """The people who train the client today: those to whom a comment of the client is addressed."""
    today = client.practice.today()
    engaged = Engagement.objects.filter(
        running(on=today), running("coach__", today), client=client, coach__practice=client.practice_id
    )
    return User.objects.filter(is_active=True, pk__in=engaged.values("coach__user"))


def rows_of_practice(user: Any, rows: QuerySet[Any], owner_sees: Q, coach_sees: Q) -> QuerySet[Any]:
    """Narrow `rows` (with a `practice`) to the user's practice, and there to what their role sees."""
    membership = membership_of(user)
    if membership is None:
        return rows.none()
    sees = owner_sees if membership.role == Membership.Role.OWNER else coach_sees
    return rows.filter(sees, practice=membership.practice)


def opened_by(user: Any) -> frozenset[int]:
    """Return the clients whose single rows the door gave to `user` during this request; what the audit keeps."""
    return frozenset(getattr(user, "_opened_clients", ()))


def note_opened(user: Any, row: Any) -> None:
    """Remember that the door gave this row to `user`; a view that narrows a queryset by other means says so here."""
    client = row.pk if isinstance(row, Client) else getattr(row, "client_id", None)
    if client is not None:
        user._opened_clients = opened_by(user) | {client}


def forget_opened(user: Any) -> None:
    """Let the audit of this request name no client: they are gone."""
    user._opened_clients = frozenset()


def access_read(rows: QuerySet[Any], user: Any, **lookup: Any) -> Any:
    """Return the one row of `rows.visible_to(user)` that matches, or raise Http404."""
    row = rows.visible_to(user).filter(**lookup).first()
    if row is None:
        raise Http404
    note_opened(user, row)
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


def access_client_as_owner(user: Any, pk: int) -> Client:
    """Return a client of the practice that the user owns; 403 for the client's coach, 404 for the rest."""
    client = access_client_as_coach(user, pk)
    access_membership(user, owner=True)
    return client


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
