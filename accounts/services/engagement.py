"""Changes to who coaches whom."""

from django.db import transaction
from django.db.models import Q
from django.utils.translation import gettext as _

from accounts.models import Client, Engagement, Membership
from accounts.services import Refused
from accounts.services.cover import cover_engagements_end, cover_join, covers_ahead


@transaction.atomic
def engagement_start(*, client: Client, coach: Membership) -> Engagement:
    """Let the coach train the client from today, where the practice is. Raises Refused if they already do.

    Whoever stands in for the coach, now or in days to come, gets the client too.
    """
    if client.practice_id != coach.practice_id:
        raise Refused(_("Coach and client belong to different practices."))
    if Engagement.objects.running().filter(client=client, coach=coach).exists():
        raise Refused(_("%(coach)s already trains %(client)s.") % {"coach": coach.user, "client": client})
    today = coach.practice.today()
    engagement = Engagement.objects.create(client=client, coach=coach, started_on=today)
    for cover in covers_ahead(coach, today):
        cover_join(cover=cover, engagements=[engagement])
    return engagement


@transaction.atomic
def engagement_end(*, engagement: Engagement) -> None:
    """End an engagement with today as its last day: the coach is out from midnight. Raises Refused if it has ended."""
    today = engagement.coach.practice.today()
    # The condition is in the update, so that of two requests only one ends it.
    ended = Engagement.objects.running().filter(pk=engagement.pk, started_on__lte=today).update(ended_on=today)
    if not ended:
        raise Refused(_("This has already ended."))
    engagement.ended_on = today
    cover_engagements_end(Q(client=engagement.client_id, cover__away=engagement.coach_id), today)


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
    today = coach.practice.today()
    others = runs.exclude(coach=coach).update(ended_on=today)
    cover_engagements_end(Q(client=client) & ~Q(cover__away=coach), today)
    if kept and not others:
        raise Refused(_("%(coach)s already trains %(client)s.") % {"coach": coach.user, "client": client})
    return kept or engagement_start(client=client, coach=coach)


@transaction.atomic
def engagements_hand_over(*, clients: list[Client], coach: Membership) -> int:
    """Give several clients to another coach, all or none; those whom the coach alone trains already stay. Count given.

    Raises Refused as handing over one does.
    """
    given = 0
    for client in clients:
        trained_by = set(Engagement.objects.running().filter(client=client).values_list("coach", flat=True))
        if trained_by != {coach.pk}:
            engagement_hand_over(client=client, coach=coach)
            given += 1
    return given
