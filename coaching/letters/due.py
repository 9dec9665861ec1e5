"""Whose letter is due."""

import datetime as dt
from collections.abc import Iterator

from accounts import access
from accounts.models import Client, Engagement, Membership, User
from coaching.models import WeeklyLetter, WeekSummary
from coaching.recompute.calendar import WEEK, week_of

# Monday morning where the person is, late enough that the worker has closed the week.
HOUR = 6
# A server that stood still for longer than this does not send what nobody waits for any more.
LATEST = dt.timedelta(days=2)


def due_week(user: User, now: dt.datetime) -> dt.date | None:
    """Return the Monday of the week that ended, if now is between Monday 6:00 and two days later where the user is."""
    here = now.astimezone(user.zone)
    monday = week_of(here.date())
    since = here - dt.datetime.combine(monday, dt.time(HOUR), tzinfo=user.zone)
    return monday - WEEK if dt.timedelta(0) <= since < LATEST else None


def _waiting(users: dict[int, User], kind: str, now: dt.datetime) -> Iterator[tuple[User, dt.date]]:
    """Yield those for whom it is the hour and whose letter has not gone."""
    hour = {pk: week for pk, user in users.items() if (week := due_week(user, now))}
    gone = set(
        WeeklyLetter.objects.filter(kind=kind, user__in=hour, week__in=set(hour.values())).values_list("user", "week")
    )
    for pk, week in hour.items():
        if (pk, week) not in gone:
            yield users[pk], week


def due_clients(now: dt.datetime) -> Iterator[tuple[Client, WeekSummary]]:
    """Yield the clients in training whose finished week is computed, with its summary."""
    rows = Engagement.objects.filter(
        access.running_about(now), client__user__weekly_letter=True, client__user__is_active=True
    ).select_related("client__user", "client__practice")
    engaged = [row.client for row in rows if row.runs_on(row.client.practice.day_of(now))]
    by_user = {client.user_id: client for client in engaged}
    waiting = list(_waiting({pk: client.user for pk, client in by_user.items()}, WeeklyLetter.Kind.CLIENT, now))
    summaries = WeekSummary.objects.filter(
        client__in=[by_user[user.pk] for user, _ in waiting], week__in={week for _, week in waiting}
    )
    # A row of a week that still ran when it was computed would tell half of it.
    found = {(row.client_id, row.week): row for row in summaries if row.as_of >= row.week + WEEK}
    for user, week in waiting:
        client = by_user[user.pk]
        if row := found.get((client.pk, week)):
            yield client, row


def due_coaches(now: dt.datetime) -> Iterator[tuple[Membership, dt.date]]:
    """Yield the coaches of all practices whose letter is due."""
    rows = Membership.objects.filter(
        access.running_about(now), user__weekly_letter=True, user__is_active=True
    ).select_related("user", "practice")
    by_user = {row.user_id: row for row in rows if row.runs_on(row.practice.day_of(now))}
    for user, week in _waiting({pk: row.user for pk, row in by_user.items()}, WeeklyLetter.Kind.COACH, now):
        yield by_user[user.pk], week
