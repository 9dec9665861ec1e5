"""Erase a client: every row of theirs, and their account."""

from collections import Counter

from axes.models import AccessAttempt, AccessFailureLog, AccessLog
from django.contrib.sessions.models import Session as SignIn
from django.db import transaction
from django.db.models import Q, QuerySet

from accounts.models import Client, Invitation, User
from coaching.models import Erasure
from programs.models import DraftRun, Fitting


@transaction.atomic
def client_erase(*, client: Client, by: User) -> Erasure:
    """Remove everything that is the client's or names them, and return the proof: how many rows of which table went.

    The account goes too, unless the person also works as a coach somewhere: then only their training goes. What stands
    in backups and in exports that were taken stays there until those are deleted; the proof cannot speak for them.
    """
    user, practice = client.user, client.practice
    gone: Counter[str] = Counter()
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


def _sign_ins(user: User) -> list[str]:
    """Return the sessions in which the user is signed in; what they hold is readable only one by one."""
    return [row.pk for row in SignIn.objects.iterator() if row.get_decoded().get("_auth_user_id") == str(user.pk)]
