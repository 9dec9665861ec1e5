"""Standing in for a coach who is away."""

import datetime as dt

from django.db import transaction
from django.db.models import Q
from django.utils.translation import gettext as _

from accounts.models import Cover, Engagement, Membership, User
from accounts.services import Refused

LONGEST = dt.timedelta(days=180)


@transaction.atomic
def cover_arrange(
    *, away: Membership, by: Membership, starts_on: dt.date, ends_on: dt.date, arranged_by: User
) -> Cover:
    """Let `by` train the clients of `away` from a day to a day, both included and counted where the practice is.

    Raises Refused when the days lie in the past, are upside down or too many, when one of the two has left or works
    elsewhere, or when another cover of `away` holds one of these days.
    """
    # Both rows are locked, in the same order everywhere, so that two covers cannot be arranged past each other.
    locked = Membership.objects.select_for_update(of=("self",)).filter(pk__in=[away.pk, by.pk]).order_by("pk")
    rows = {row.pk: row for row in locked.select_related("practice", "user")}
    away, by = rows[away.pk], rows[by.pk]
    _refuse_people(away, by)
    _refuse_days(away, starts_on, ends_on)
    cover = Cover.objects.create(
        practice=away.practice, away=away, by=by, starts_on=starts_on, ends_on=ends_on, arranged_by=arranged_by
    )
    cover_join(cover=cover, engagements=list(Engagement.objects.running().filter(coach=away)))
    return cover


def _refuse_people(away: Membership, by: Membership) -> None:
    if away.pk == by.pk:
        raise Refused(_("Nobody can stand in for themselves."))
    if away.practice_id != by.practice_id:
        raise Refused(_("The two work in different practices."))
    if away.ended_on is not None or by.ended_on is not None:
        raise Refused(_("This person no longer works here."))


def _refuse_days(away: Membership, starts_on: dt.date, ends_on: dt.date) -> None:
    if starts_on < away.practice.today():
        raise Refused(_("The first day lies in the past."))
    if ends_on < starts_on:
        raise Refused(_("The last day lies before the first."))
    if ends_on - starts_on > LONGEST:
        raise Refused(_("At most half a year. For longer, hand the clients over."))
    if Cover.objects.filter(away=away, starts_on__lte=ends_on, ends_on__gte=starts_on).exists():
        raise Refused(_("Somebody stands in for %(away)s on some of these days already.") % {"away": away.user})


def cover_join(*, cover: Cover, engagements: list[Engagement]) -> None:
    """Give the clients of these engagements to the one who stands in, but for those whom they train anyway."""
    already = set(Engagement.objects.running().filter(coach=cover.by).values_list("client", flat=True))
    Engagement.objects.bulk_create(
        [
            Engagement(
                coach=cover.by,
                client_id=row.client_id,
                cover=cover,
                started_on=max(cover.starts_on, row.started_on),
                ended_on=cover.ends_on,
            )
            for row in engagements
            if row.client_id not in already
        ],
        ignore_conflicts=True,
    )


def covers_ahead(coach: Membership, today: dt.date) -> list[Cover]:
    """Return the covers of `coach` that are not over."""
    return list(Cover.objects.filter(away=coach, ends_on__gte=today).select_related("by"))


@transaction.atomic
def cover_withdraw(*, cover: Cover) -> None:
    """End a cover: one that has begun has yesterday as its last day, one that has not is gone. Refused when over."""
    today = cover.practice.today()
    if cover.ends_on < today:
        raise Refused(_("This has already ended."))
    yesterday = today - dt.timedelta(days=1)
    if cover.starts_on > yesterday:
        cover.delete()
        return
    Cover.objects.filter(pk=cover.pk).update(ends_on=yesterday)
    cover_engagements_end(Q(cover=cover), yesterday)


def cover_engagements_end(which: Q, last_day: dt.date) -> None:
    """Let the engagements of covers end with `last_day`; those that begin later are gone."""
    rows = Engagement.objects.filter(which, cover__isnull=False, ended_on__gt=last_day)
    rows.filter(started_on__gt=last_day).delete()
    rows.update(ended_on=last_day)
