"""Make, renew and close the address of a client's calendar."""

import datetime as dt

from django.db import transaction

from accounts.models import Client
from logbook.models import CalendarFeed
from logbook.models.calendar_feed import new_secret


@transaction.atomic
def calendar_open(*, client: Client, starts_at: dt.time | None) -> CalendarFeed:
    """Make the client's calendar address, or change the time of day of the one there is."""
    feed, _ = CalendarFeed.objects.update_or_create(client=client, defaults={"starts_at": starts_at})
    return feed


def calendar_renew(*, client: Client) -> bool:
    """Give the calendar a new address; the old one answers nobody from now on. False when there is none."""
    return bool(CalendarFeed.objects.filter(client=client).update(secret=new_secret()))


def calendar_close(*, client: Client) -> None:
    """Take the address away."""
    CalendarFeed.objects.filter(client=client).delete()
