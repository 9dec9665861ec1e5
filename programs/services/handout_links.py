"""Read-only links to a hand-out: made, opened, withdrawn.

The link holds 256 random bits and the database their SHA-256, as with invitations. A link works while whoever made it
may themselves see what it shows: with a coach who leaves, their links end.
"""

import datetime as dt
import hashlib
import secrets
from dataclasses import dataclass

from django.db import transaction
from django.db.models import F
from django.utils import timezone

from accounts.models import User
from programs.handout.options import Options
from programs.models import Assignment, HandoutLink, Program

DAYS = 30
MOST_DAYS = 365


@dataclass(frozen=True, slots=True)
class Issued:
    """A link and its secret. The secret cannot be had again: show it now."""

    link: HandoutLink
    token: str


def token_hash(token: str) -> str:
    """Return what the database keeps of a link's secret."""
    return hashlib.sha256(token.encode(errors="replace")).hexdigest()


@transaction.atomic
def handout_link_create(
    *,
    user: User,
    options: Options,
    days: int = DAYS,
    program: Program | None = None,
    assignment: Assignment | None = None,
) -> Issued:
    """Make a link to `program` as it is now, or to the client's copy `assignment`. Not checked: that `user` may."""
    token = secrets.token_urlsafe(32)
    link = HandoutLink.objects.create(
        program=program,
        program_version=program.version if program else None,
        assignment=assignment,
        token_hash=token_hash(token),
        options=options.stored(),
        created_by=user,
        expires_at=timezone.now() + dt.timedelta(days=days),
    )
    return Issued(link, token)


@transaction.atomic
def handout_link_withdraw(*, link: HandoutLink) -> None:
    """Make the link useless; one that was withdrawn before keeps its moment."""
    HandoutLink.objects.filter(pk=link.pk, withdrawn_at=None).update(withdrawn_at=timezone.now())


@transaction.atomic
def handout_link_open(*, token: str) -> HandoutLink | None:
    """Return the link behind a secret and note that it was opened; None when there is none, or none that works."""
    now = timezone.now()
    rows = HandoutLink.objects.select_related(
        "created_by", "program__practice", "assignment__client__practice", "assignment__client__user"
    )
    link = rows.filter(token_hash=token_hash(token)).first()
    if link is None or not link.is_open(now) or not maker_sees(link):
        return None
    HandoutLink.objects.filter(pk=link.pk).update(opened_at=now, opened=F("opened") + 1)
    return link


def maker_sees(link: HandoutLink) -> bool:
    """Say whether whoever made the link may still see what it shows."""
    return HandoutLink.objects.visible_to(link.created_by).filter(pk=link.pk).exists()
