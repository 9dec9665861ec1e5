"""Ending and handing over: days, rights, and what follows for the pages."""

import datetime as dt

import pytest
from django.urls import reverse

from accounts.models import Engagement, Membership, User
from accounts.services import Refused
from accounts.services.cover import cover_arrange
from accounts.services.engagement import engagement_end, engagement_hand_over, engagement_start
from accounts.services.membership import membership_end, membership_role_set
from accounts.services.practice import practice_create
from tests.conftest import make_client

BACKEND = "allauth.account.auth_backends.AuthenticationBackend"


def signed_in(client, user):
    client.force_login(user, backend=BACKEND)
    return client


@pytest.fixture
def engagement(world):
    return world.client.engagements.select_related("coach__practice").get()


def test_ended_engagement_opens_the_page_today_and_answers_404_tomorrow(world, engagement, client):
    engagement_end(engagement=engagement)
    signed_in(client, world.coach)
    page = reverse("client-edit", args=[world.client.pk])
    assert client.get(page).status_code == 200
    engagement.refresh_from_db()
    assert engagement.ended_on == world.practice.today()
    Engagement.objects.filter(pk=engagement.pk).update(ended_on=engagement.ended_on - dt.timedelta(days=1))
    assert client.get(page).status_code == 404
    assert "Clemens" not in client.get(reverse("client-list")).text


def test_engagement_ends_once(engagement):
    engagement_end(engagement=engagement)
    with pytest.raises(Refused):
        engagement_end(engagement=engagement)


def test_client_ends_their_own_training(world, engagement, client):
    signed_in(client, world.client.user)
    page = reverse("engagement-end", args=[engagement.pk])
    assert page in client.get(reverse("profile")).text
    assert client.get(page).status_code == 200
    assert Engagement.objects.running().filter(pk=engagement.pk).exists()
    assert client.post(page).url == reverse("profile")
    assert not Engagement.objects.running().filter(pk=engagement.pk).exists()
    assert "Nobody trains you" in client.get(reverse("profile")).text


def test_owner_hands_a_client_over_from_today(world, engagement, client):
    signed_in(client, world.owner)
    response = client.post(reverse("client-coach", args=[world.client.pk]), {"coach": world.colleague_membership.pk})
    assert response.url == reverse("client-edit", args=[world.client.pk])
    engagement.refresh_from_db()
    assert engagement.ended_on == world.practice.today()
    running = world.client.engagements.running().get()
    assert (running.coach, running.started_on) == (world.colleague_membership, world.practice.today())


def test_only_coach_is_not_offered_as_the_new_one(world, engagement, client):
    signed_in(client, world.owner)
    page = reverse("client-coach", args=[world.client.pk])
    offered = client.get(page).context["form"].fields["coach"].queryset
    assert world.coach_membership not in offered
    assert world.colleague_membership in offered
    engagement_start(client=world.client, coach=world.colleague_membership)
    assert world.coach_membership in client.get(page).context["form"].fields["coach"].queryset


def test_hand_over_reaches_a_client_whom_nobody_trains(world, engagement):
    engagement_end(engagement=engagement)
    assert engagement_hand_over(client=world.client, coach=world.coach_membership).ended_on is None


def test_hand_over_to_the_only_coach_is_refused(world):
    with pytest.raises(Refused, match="already"):
        engagement_hand_over(client=world.client, coach=world.coach_membership)
    assert world.client.engagements.running().count() == 1


def test_hand_over_to_one_of_two_coaches_ends_the_other(world):
    engagement_start(client=world.client, coach=world.colleague_membership)
    engagement_hand_over(client=world.client, coach=world.colleague_membership)
    assert world.client.engagements.running().get().coach == world.colleague_membership


def choices(answer):
    return {member.user for member in answer.context["form"].fields["coach"].queryset}


def test_the_one_who_trains_a_client_is_no_choice_unless_two_do(world, client):
    signed_in(client, world.owner)
    page = reverse("client-coach", args=[world.client.pk])
    assert choices(client.get(page)) == {world.owner, world.colleague}
    assert client.post(page, {"coach": world.coach_membership.pk}).context["form"].errors
    engagement_start(client=world.client, coach=world.colleague_membership)
    assert choices(client.get(page)) == {world.owner, world.coach, world.colleague}


def test_whoever_stands_in_can_take_the_client_over(world, client):
    today = world.practice.today()
    people = {"away": world.coach_membership, "by": world.colleague_membership, "arranged_by": world.owner}
    cover_arrange(**people, starts_on=today, ends_on=today)
    signed_in(client, world.owner)
    assert world.colleague in choices(client.get(reverse("client-coach", args=[world.client.pk])))


def test_where_nobody_else_coaches_the_pages_say_so(world, client):
    alone = make_client(world.outsider_membership.practice, "oda", world.outsider_membership)
    signed_in(client, world.outsider)
    giving, handing = ("client-coach", alone.pk), ("hand-over", world.outsider_membership.pk)
    for name, *args in (giving, handing, ("cover-new",)):
        text = client.get(reverse(name, args=args)).text
        assert "Nobody else coaches in this practice." in text
        assert reverse("coach-invite") in text
        assert 'name="by"' not in text
        assert 'name="coach"' not in text


def test_client_is_not_handed_to_a_coach_elsewhere(world, client):
    with pytest.raises(Refused, match="different practices"):
        engagement_hand_over(client=world.client, coach=world.outsider_membership)
    assert world.client.engagements.running().get().coach == world.coach_membership
    signed_in(client, world.owner)
    page = reverse("client-coach", args=[world.client.pk])
    response = client.post(page, {"coach": world.outsider_membership.pk})
    assert "coach" in response.context["form"].errors


def test_coach_who_is_let_go_is_out_at_once_and_their_clients_are_shown_without_a_coach(world, client):
    signed_in(client, world.coach)
    assert client.get(reverse("client-list")).status_code == 200
    membership = Membership.objects.select_related("practice", "user").get(pk=world.coach_membership.pk)
    assert membership_end(membership=membership) == 1
    assert client.get(reverse("client-list")).status_code == 404
    signed_in(client, world.owner)
    assert "nobody" in client.get(reverse("client-list")).text


def test_only_owner_can_neither_leave_nor_step_down(world, client):
    owner = world.owner.memberships.select_related("practice").get()
    with pytest.raises(Refused, match="needs an owner"):
        membership_end(membership=owner)
    with pytest.raises(Refused, match="needs an owner"):
        membership_role_set(membership=owner, role="coach")
    signed_in(client, world.owner)
    assert "A practice needs an owner" in client.post(reverse("membership-leave")).text


def test_owner_leaves_after_making_another(world):
    coach = Membership.objects.select_related("practice", "user").get(pk=world.coach_membership.pk)
    membership_role_set(membership=coach, role="owner")
    membership_end(membership=world.owner.memberships.select_related("practice").get())
    assert Membership.objects.running().get(role="owner", practice=world.practice).user == world.coach


def test_owner_changes_a_role_and_ends_work_through_the_page(world, client):
    signed_in(client, world.owner)
    page = reverse("membership-edit", args=[world.colleague_membership.pk])
    client.post(page, {"role": "owner"})
    world.colleague_membership.refresh_from_db()
    assert world.colleague_membership.role == "owner"
    client.post(page, {"end": "1"})
    world.colleague_membership.refresh_from_db()
    assert world.colleague_membership.ended_on is not None
    assert client.get(page).status_code == 404


def test_person_who_left_may_open_a_practice_of_their_own(world):
    with pytest.raises(Refused, match="already work"):
        practice_create(owner=world.coach, name="Own")
    membership_end(membership=Membership.objects.select_related("practice", "user").get(user=world.coach))
    assert practice_create(owner=User.objects.get(pk=world.coach.pk), name="Own").role == "owner"
