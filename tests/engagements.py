"""Coaches who differ only by the days of their engagement: standing in, handed to, handed away, ended."""

import datetime as dt
from types import SimpleNamespace

from accounts.models import Engagement, User
from accounts.services.cover import cover_arrange
from accounts.services.engagement import engagement_end, engagement_hand_over, engagement_start
from tests.conftest import make_member

DAY = dt.timedelta(days=1)


def add_coaches(world: SimpleNamespace) -> SimpleNamespace:
    """Add `former`, `giver`, `taker` and `stand_in` to the world, through the services that a page would call.

    What ended today opens the page until midnight, so what ended is moved back to yesterday. `coach` goes on training
    the client beside `taker`.
    """
    client, trained = world.client, Engagement.objects.get(client=world.client)
    members = {name: make_member(world.practice, name) for name in ("former", "giver", "taker", "stand_in")}
    ended = engagement_start(client=client, coach=members["former"])
    engagement_end(engagement=Engagement.objects.select_related("coach__practice").get(pk=ended.pk))
    engagement_start(client=client, coach=members["giver"])
    engagement_hand_over(client=client, coach=members["taker"])
    Engagement.objects.filter(pk=trained.pk).update(ended_on=None)
    today = world.practice.today()
    for row in Engagement.objects.filter(client=client, ended_on=today):
        Engagement.objects.filter(pk=row.pk).update(started_on=row.started_on - 90 * DAY, ended_on=today - DAY)
    cover_arrange(
        away=world.coach_membership,
        by=members["stand_in"],
        starts_on=today,
        ends_on=today,
        arranged_by=world.owner,
    )
    for name, member in members.items():
        setattr(world, name, User.objects.get(pk=member.user_id))
    return world
