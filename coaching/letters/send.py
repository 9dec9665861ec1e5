"""Write and send the letters that are due, each at most once."""

import datetime as dt
import logging
from typing import Any

from django.conf import settings
from django.core import signing
from django.core.mail import EmailMultiAlternatives
from django.db import IntegrityError, transaction
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import timezone, translation
from django.utils.translation import gettext as _

from accounts.languages import spoken
from accounts.models import User
from coaching.letters.contents import for_client, for_coach
from coaching.letters.due import due_clients, due_coaches
from coaching.models import WeeklyLetter

logger = logging.getLogger(__name__)
SALT = "sinewright.letters"


def stop_link(user: User) -> str:
    """Return the address that turns the letters off without signing in; it opens nothing else."""
    return settings.BASE_URL + reverse("letters-stop", args=[signing.dumps(user.pk, salt=SALT)])


def user_of(token: str) -> User | None:
    """Return whose letters a link turns off; None for a changed one. It has no expiry: old letters must stop too."""
    try:
        return User.objects.filter(pk=signing.loads(token, salt=SALT)).first()
    except signing.BadSignature:
        return None


def send_due(now: dt.datetime | None = None) -> int:
    """Send every letter that is due and return how many went. One that the mail server refuses is tried again."""
    now = now or timezone.now()
    sent = 0
    for client, summary in due_clients(now):
        sent += _send(client.user, WeeklyLetter.Kind.CLIENT, summary.week, for_client(client, summary))
    for membership, week in due_coaches(now):
        sent += _send(membership.user, WeeklyLetter.Kind.COACH, week, for_coach(membership, week, now))
    return sent


def _send(user: User, kind: str, week: dt.date, context: dict[str, Any] | None) -> bool:
    if context is None:
        return False
    try:
        with transaction.atomic():
            row = WeeklyLetter.objects.create(user=user, kind=kind, week=week)
    except IntegrityError:  # another worker was first
        return False
    try:
        with timezone.override(user.zone), translation.override(spoken(user.language)):
            letter(user, kind, week, context).send()
    except OSError:  # what smtplib raises, and what sockets do
        logger.exception("A weekly letter could not be sent")
        row.delete()
        return False
    return True


def letter(user: User, kind: str, week: dt.date, context: dict[str, Any]) -> EmailMultiAlternatives:
    """Return the letter: plain text with an HTML twin, and headers by which mail programs turn it off (RFC 8058)."""
    stop = stop_link(user)
    known = {"person": user, "week": week, "ends": week + dt.timedelta(days=6), "base": settings.BASE_URL, "stop": stop}
    whole = {**known, **context}
    subject = _("Your week") if kind == WeeklyLetter.Kind.CLIENT else _("Your clients' week")
    made = EmailMultiAlternatives(
        subject,
        render_to_string(f"coaching/letters/{kind}.txt", whole),
        to=[user.email],
        headers={"List-Unsubscribe": f"<{stop}>", "List-Unsubscribe-Post": "List-Unsubscribe=One-Click"},
    )
    made.attach_alternative(render_to_string(f"coaching/letters/{kind}.html", whole), "text/html")
    return made
