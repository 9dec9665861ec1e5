"""Standing in for a colleague, and handing clients over: the days, the rights, and what ends them."""

import datetime as dt

import pytest
from django.db import IntegrityError, transaction
from django.urls import reverse

from accounts import access
from accounts.models import Cover, Engagement, Membership, User
from accounts.services import Refused
from accounts.services.cover import cover_arrange, cover_withdraw
from accounts.services.engagement import engagement_end, engagement_hand_over, engagement_start
from accounts.services.membership import membership_end
from tests.conftest import make_client

BACKEND = "allauth.account.auth_backends.AuthenticationBackend"
DAY = dt.timedelta(days=1)


def signed_in(client, user):
    client.force_login(user, backend=BACKEND)
    return client


def sees(user, person, world, on=0) -> bool:
    """Say whether the user sees the client `on` days from now: rows are moved back, since the door reads the clock."""
    with transaction.atomic():
        for row in Engagement.objects.exclude(cover=None):
            shifted = {"started_on": row.started_on - on * DAY, "ended_on": row.ended_on - on * DAY}
            Engagement.objects.filter(pk=row.pk).update(**shifted)
        seen = access.clients_visible_to(User.objects.get(pk=user.pk)).filter(pk=person.pk).exists()
        transaction.set_rollback(True)
    return seen


@pytest.fixture
def cover(world):
    """`colleague` stands in for `coach` from tomorrow on, for a week."""
    today = world.practice.today()
    return cover_arrange(
        away=world.coach_membership,
        by=world.colleague_membership,
        starts_on=today + DAY,
        ends_on=today + 7 * DAY,
        arranged_by=world.owner,
    )


@pytest.mark.parametrize(("on", "seen"), [(0, False), (1, True), (7, True), (8, False)])
def test_cover_opens_the_clients_on_its_days_only(world, cover, on, seen):
    assert sees(world.colleague, world.client, world, on) is seen
    assert sees(world.coach, world.client, world, on)
    assert not sees(world.outsider, world.client, world, on)


def test_whoever_is_away_keeps_their_engagement(world, cover):
    assert Engagement.objects.running().get(client=world.client).coach == world.coach_membership


def test_client_who_joins_meanwhile_is_covered_too(world, cover):
    new = make_client(world.practice, "nico")
    engagement_start(client=new, coach=world.coach_membership)
    assert sees(world.colleague, new, world, on=3)


def test_client_whom_both_train_has_no_second_engagement(world):
    engagement_start(client=world.client, coach=world.colleague_membership)
    today = world.practice.today()
    cover_arrange(
        away=world.coach_membership,
        by=world.colleague_membership,
        starts_on=today,
        ends_on=today,
        arranged_by=world.owner,
    )
    assert Engagement.objects.filter(client=world.client, coach=world.colleague_membership).count() == 1


def test_client_who_stops_meanwhile_is_no_longer_covered(world, cover):
    engagement_end(engagement=world.client.engagements.select_related("coach__practice").get(cover=None))
    assert not sees(world.colleague, world.client, world, on=3)


def test_hand_over_ends_the_cover_of_that_client(world, cover):
    engagement_hand_over(client=world.client, coach=world.owner.memberships.get())
    assert not sees(world.colleague, world.client, world, on=3)


def test_cover_that_has_not_begun_is_called_off_without_a_trace(world, cover):
    cover_withdraw(cover=cover)
    assert not Cover.objects.exists()
    assert not Engagement.objects.exclude(cover=None).exists()


def test_cover_that_runs_ends_at_once(world, cover):
    today = world.practice.today()
    Cover.objects.update(starts_on=today - 3 * DAY)
    Engagement.objects.exclude(cover=None).update(started_on=today - 3 * DAY)
    assert sees(world.colleague, world.client, world)
    cover_withdraw(cover=Cover.objects.select_related("practice").get())
    assert not sees(world.colleague, world.client, world)
    with pytest.raises(Refused, match="already ended"):
        cover_withdraw(cover=Cover.objects.select_related("practice").get())


def test_one_who_leaves_no_longer_stands_in(world, cover):
    membership_end(membership=Membership.objects.select_related("practice", "user").get(user=world.colleague))
    assert not Cover.objects.exists()


@pytest.mark.parametrize(
    ("change", "reason"),
    [
        ({"starts_on": -1}, "lies in the past"),
        ({"ends_on": 1}, "before the first"),
        ({"ends_on": 400}, "half a year"),
        ({"by": "coach_membership"}, "for themselves"),
        ({"by": "outsider_membership"}, "different practices"),
    ],
)
def test_cover_that_makes_no_sense_is_refused_in_words(world, change, reason):
    today = world.practice.today()
    days = {"starts_on": 2, "ends_on": 5} | {key: value for key, value in change.items() if key != "by"}
    by = getattr(world, change.get("by", "colleague_membership"))
    with pytest.raises(Refused, match=reason):
        cover_arrange(
            away=world.coach_membership,
            by=by,
            arranged_by=world.owner,
            **{key: today + value * DAY for key, value in days.items()},
        )
    assert not Cover.objects.exists()


def test_two_covers_of_one_coach_may_not_share_a_day(world, cover):
    with pytest.raises(Refused, match="already"):
        cover_arrange(
            away=world.coach_membership,
            by=world.owner.memberships.get(),
            starts_on=cover.ends_on,
            ends_on=cover.ends_on + DAY,
            arranged_by=world.owner,
        )


def test_engagement_of_a_cover_always_has_an_end(world, cover):
    with pytest.raises(IntegrityError), transaction.atomic():
        Engagement.objects.exclude(cover=None).update(ended_on=None)


def test_coach_arranges_only_their_own_absence(world, client):
    signed_in(client, world.coach)
    today = world.practice.today()
    page = client.get(reverse("cover-new"))
    assert "away" not in page.context["form"].fields
    data = {
        "away": world.colleague_membership.pk,  # is not listened to
        "by": world.colleague_membership.pk,
        "starts_on": today.isoformat(),
        "ends_on": today.isoformat(),
    }
    assert client.post(reverse("cover-new"), data).status_code == 302
    assert Cover.objects.get().away == world.coach_membership
    signed_in(client, world.colleague)
    # Whoever stands in sees it and does not end it.
    end = reverse("cover-end", args=[Cover.objects.get().pk])
    assert client.get(end).status_code == 403
    assert end not in client.get(reverse("practice")).text
    assert "Colin stands in for Carla" in client.get(reverse("practice")).text


def test_days_that_make_no_sense_are_told_on_the_page(world, client):
    signed_in(client, world.owner)
    data = {"away": world.coach_membership.pk, "by": world.coach_membership.pk, "starts_on": "x", "ends_on": ""}
    response = client.post(reverse("cover-new"), data)
    assert response.status_code == 422
    assert set(response.context["form"].errors) == {"by", "starts_on", "ends_on"}
    today = world.practice.today().isoformat()
    response = client.post(reverse("cover-new"), data | {"starts_on": today, "ends_on": today})
    assert "Nobody can stand in for themselves" in response.text


def test_client_is_told_who_stands_in(world, cover, client):
    today = world.practice.today()
    Engagement.objects.exclude(cover=None).update(started_on=today)
    text = signed_in(client, world.client.user).get(reverse("profile")).text
    assert "Colin stands in until" in text
    assert "Carla, Rowan Yard Strength" in text


def test_owner_hands_several_clients_over_at_once(world, client):
    second = make_client(world.practice, "cyrus", world.coach_membership)
    kept = make_client(world.practice, "cleo", world.coach_membership)
    signed_in(client, world.owner)
    page = reverse("hand-over", args=[world.coach_membership.pk])
    text = client.get(page).text
    assert all(name in text for name in ("Clemens", "Cyrus", "Cleo"))
    data = {"clients": [world.client.pk, second.pk], "coach": world.colleague_membership.pk}
    assert client.post(page, data).status_code == 302
    coaches = dict(Engagement.objects.running().values_list("client", "coach"))
    assert coaches[world.client.pk] == coaches[second.pk] == world.colleague_membership.pk
    assert coaches[kept.pk] == world.coach_membership.pk


def test_hand_over_without_a_client_or_of_a_strangers_client_is_refused(world, client):
    signed_in(client, world.owner)
    page = reverse("hand-over", args=[world.coach_membership.pk])
    response = client.post(page, {"coach": world.colleague_membership.pk})
    assert "Choose at least one client" in response.text
    response = client.post(page, {"clients": [world.outside_client.pk], "coach": world.colleague_membership.pk})
    assert response.status_code == 422
    assert Engagement.objects.running().get(client=world.client).coach == world.coach_membership


def test_clients_left_behind_can_be_handed_over_afterwards(world, client):
    membership_end(membership=Membership.objects.select_related("practice", "user").get(user=world.coach))
    signed_in(client, world.owner)
    page = reverse("hand-over", args=[world.coach_membership.pk])
    client.post(page, {"clients": [world.client.pk], "coach": world.colleague_membership.pk})
    assert Engagement.objects.running().get(client=world.client).coach == world.colleague_membership


def test_the_page_asks_as_often_for_few_clients_as_for_many(world, client, django_assert_num_queries):
    signed_in(client, world.owner)
    page = reverse("hand-over", args=[world.coach_membership.pk])
    client.get(page)
    with django_assert_num_queries(10) as few:  # one asks whether there is anybody to take over
        client.get(page)
    for number in range(20):
        make_client(world.practice, f"many{number}", world.coach_membership)
    with django_assert_num_queries(len(few)):
        client.get(page)
