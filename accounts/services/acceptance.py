"""Accepting an invitation, once."""

from allauth.account.models import EmailAddress
from django.db import IntegrityError, transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from accounts import access
from accounts.models import Client, Engagement, Invitation, Membership, User
from accounts.services import Refused
from accounts.services.engagement import engagement_start


def _claim(invitation: Invitation) -> None:
    """Take the invitation for this transaction. Of two that try at once, the second waits and is refused."""
    claimed = Invitation.objects.open().filter(pk=invitation.pk, token_hash=invitation.token_hash)
    if not claimed.update(accepted_at=timezone.now()):
        raise Refused(_("This invitation has been used, withdrawn or has expired."))


def _join(invitation: Invitation, user: User) -> None:
    """Write down who accepted and make them what they were invited as."""
    Invitation.objects.filter(pk=invitation.pk).update(accepted_by=user)
    if invitation.kind == Invitation.Kind.COACH:
        _join_as_coach(invitation, user)
    else:
        _join_as_client(invitation, user)
    access.forget(user)


def _join_as_coach(invitation: Invitation, user: User) -> None:
    running = Membership.objects.running().filter(user=user).select_related("practice").first()
    if running:
        raise Refused(
            _("You already work in %(practice)s. Leave it before you join another.") % {"practice": running.practice}
        )
    practice = invitation.practice
    Membership.objects.create(practice=practice, user=user, started_on=practice.today())


def _join_as_client(invitation: Invitation, user: User) -> None:
    practice = invitation.practice
    inviter = Membership.objects.running().filter(user=invitation.invited_by, practice=practice)
    coach = inviter.select_related("practice", "user").first()
    if coach is None:
        raise Refused(_("The coach who invited you no longer works at %(practice)s.") % {"practice": practice})
    client, _made = Client.objects.select_related("practice").get_or_create(user=user, defaults={"practice": practice})
    if client.practice_id != practice.pk:
        if Engagement.objects.running().filter(client=client).exists():
            raise Refused(
                _("You are trained at %(practice)s. End that first, under You.") % {"practice": client.practice}
            )
        # Their log moves with them: the new coach sees it, the old practice no longer does.
        client.practice = practice
        client.save(update_fields=["practice"])
    engagement_start(client=client, coach=coach)


@transaction.atomic
def invitation_accept(*, invitation: Invitation, user: User) -> None:
    """Let someone who has an account join. Raises Refused when the link is spent or they cannot join.

    Whoever holds the link may accept it under the account they are signed in with. Their address counts as verified
    only if it is the one that the invitation was sent to.
    """
    _claim(invitation)
    if user.email.lower() == invitation.email.lower():
        EmailAddress.objects.filter(user=user, email__iexact=user.email).update(verified=True)
    _join(invitation, user)


@transaction.atomic
def invitation_accept_as_new(
    *, invitation: Invitation, name: str, password: str, time_zone: str, load_unit: str
) -> User:
    """Make an account for the invited address and join. Raises Refused when the link is spent or the address taken.

    The link went to the address, so the address counts as verified. A coach can also copy the link: the account is
    then in use before its mailbox was seen, but only that mailbox can reset its password.
    """
    _claim(invitation)
    fields = {"name": name, "time_zone": time_zone, "load_unit": load_unit}
    try:
        with transaction.atomic():
            user = User.objects.create_user(email=invitation.email, password=password, **fields)
    except IntegrityError as error:
        raise Refused(_("There is an account for this address. Sign in to accept.")) from error
    EmailAddress.objects.create(user=user, email=user.email, verified=True, primary=True)
    _join(invitation, user)
    return user
