"""Changes to who coaches whom."""

from django.db import transaction
from django.utils.translation import gettext as _

from accounts.models import Client, Engagement, Membership
from accounts.services import Refused


def engagement_start(*, client: Client, coach: Membership) -> Engagement:
    """Let the coach train the client from today, where the practice is. Raises Refused if they already do."""
    if client.practice_id != coach.practice_id:
        raise Refused(_("Coach and client belong to different practices."))
    if Engagement.objects.running().filter(client=client, coach=coach).exists():
        raise Refused(_("%(coach)s already trains %(client)s.") % {"coach": coach.user, "client": client})
    return Engagement.objects.create(client=client, coach=coach, started_on=coach.practice.today())


@transaction.atomic
def engagement_end(*, engagement: Engagement) -> None:
    """End an engagement with today as its last day: the coach is out from midnight. Raises Refused if it has ended."""
    today = engagement.coach.practice.today()
    # The condition is in the update, so that of two requests only one ends it.
    ended = Engagement.objects.running().filter(pk=engagement.pk, started_on__lte=today).update(ended_on=today)
    if not ended:
        raise Refused(_("This has already ended."))
    engagement.ended_on = today


@transaction.atomic
def engagement_hand_over(*, client: Client, coach: Membership) -> Engagement:
    """Give the client to another coach of the practice: what runs ends today, the new engagement starts today.

    Raises Refused when the coach has left, works elsewhere, or is the client's only coach already.
    """
    coach = Membership.objects.select_for_update(of=("self",)).select_related("practice", "user").get(pk=coach.pk)
    if coach.ended_on is not None:
        raise Refused(_("This person no longer works here."))
    runs = Engagement.objects.running().filter(client=client)
    kept = runs.filter(coach=coach).first()
    others = runs.exclude(coach=coach).update(ended_on=coach.practice.today())
    if kept and not others:
        raise Refused(_("%(coach)s already trains %(client)s.") % {"coach": coach.user, "client": client})
    return kept or engagement_start(client=client, coach=coach)
