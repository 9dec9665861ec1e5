"""Erase a client: every row of theirs, and their account."""

from collections import Counter

from axes.models import AccessAttempt, AccessFailureLog, AccessLog
from django.contrib.sessions.models import Session as SignIn
from django.db import transaction
from django.db.models import Model, Q, QuerySet

from accounts.models import AuditEntry, Client, Invitation, User
from coaching.models import Erasure, FlagRow, StrengthPoint, WeekSummary
from logbook.models import Operation, PastRun, SetHistory, SetLog
from logbook.services.past_signs import ask_stop
from programs.models import DraftRun, Fitting

# Tables of which one client may have very many rows, what points before what is pointed at.
MANY: tuple[tuple[type[Model], str], ...] = (
    (SetHistory, "set__client"),
    (SetLog, "client"),
    (Operation, "client"),
    (StrengthPoint, "client"),
    (FlagRow, "client"),
    (WeekSummary, "client"),
    (AuditEntry, "client"),
)


def client_erase(*, client: Client, by: User) -> Erasure:
    """Remove everything that is the client's or names them, and return the proof: how many rows of which table went.

    The account goes too, unless the person also works as a coach somewhere: then only their training goes. What stands
    in backups and in exports that were taken stays there until those are deleted; the proof cannot speak for them.

    One transaction: whoever looks sees all of the client or nothing, wherever a process dies. A worker that brings the
    client's past in or makes their rows is at its end before, and is asked to stop if it takes long.
    """
    for run in PastRun.objects.unfinished().filter(client=client).values_list("pk", flat=True):
        ask_stop(run)
    return _erase(client, by)


@transaction.atomic
def _erase(client: Client, by: User) -> Erasure:
    # What another transaction has written of the client must be seen, or it would be left over.
    Client.objects.select_for_update().get(pk=client.pk)
    user, practice = client.user, client.practice
    gone: Counter[str] = Counter()
    for model, path in MANY:
        _remove_many(gone, model, path, client)
    _remove(gone, DraftRun.objects.filter(client=client))
    for fitting in Fitting.objects.filter(clients=client):
        fitting.choices.pop(str(client.pk), None)
        fitting.save(update_fields=["choices"])
    _remove(gone, Client.objects.filter(pk=client.pk))
    if not user.memberships.exists():
        invited = Q(email__iexact=user.email) | Q(accepted_by=user)
        _remove(gone, Invitation.objects.filter(invited))
        for model in (AccessAttempt, AccessFailureLog, AccessLog):
            _remove(gone, model.objects.filter(username__iexact=user.email))
        _remove(gone, SignIn.objects.filter(pk__in=_sign_ins(user)))
        _remove(gone, User.objects.filter(pk=user.pk))
    return Erasure.objects.create(practice=practice, by=by, counts=dict(sorted(gone.items())))


def _remove(gone: Counter[str], rows: QuerySet) -> None:
    gone.update(rows.delete()[1])


def _remove_many(gone: Counter[str], model: type[Model], path: str, client: Client) -> None:
    """Remove rows to which nothing points any more in the database itself: to fetch twenty thousand of them, as a
    deletion that looks for what points at them does, takes seconds, and for so long SQLite lets nobody else write."""
    rows = model._base_manager.filter(**{path: client.pk})
    if number := rows._raw_delete(rows.db):
        gone[model._meta.label] += number


def _sign_ins(user: User) -> list[str]:
    """Return the sessions in which the user is signed in; what they hold is readable only one by one."""
    return [row.pk for row in SignIn.objects.iterator() if row.get_decoded().get("_auth_user_id") == str(user.pk)]
