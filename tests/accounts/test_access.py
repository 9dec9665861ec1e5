"""Who may read and write whose data: the rules of accounts/access.py, one by one."""

import datetime as dt

import pytest
from django.contrib.auth.models import AnonymousUser
from django.core.exceptions import PermissionDenied
from django.http import Http404

from accounts import access
from accounts.models import Client, Engagement, Invitation, Membership, User
from tests.conftest import make_client, make_member

DAY = dt.timedelta(days=1)


def reads(user) -> set[str]:
    return {client.user.name for client in access.clients_visible_to(fresh(user))}


def writes(user) -> set[str]:
    return {client.user.name for client in access.clients_coached_by(fresh(user))}


def fresh(user):
    """The person as the next request finds them, without what the last one kept."""
    return User.objects.get(pk=user.pk)


def test_coach_reads_and_writes_only_those_they_train(world):
    assert reads(world.coach) == writes(world.coach) == {"Clemens"}


def test_owner_reads_and_writes_everyone_of_the_practice(world):
    make_client(world.practice, "cleo")
    assert reads(world.owner) == writes(world.owner) == {"Clemens", "Cosima", "Cleo"}


def test_coach_of_another_practice_sees_nobody_here(world):
    assert reads(world.outsider) == {"Oskar"}


def test_client_reads_themselves_and_writes_no_plan(world):
    assert reads(world.client.user) == {"Clemens"}
    assert writes(world.client.user) == set()


def test_person_without_ties_sees_nobody(world):
    assert reads(world.nobody) == writes(world.nobody) == set()


def test_anonymous_sees_nobody(world):
    assert not access.clients_visible_to(AnonymousUser()).exists()
    assert not access.clients_coached_by(AnonymousUser()).exists()


@pytest.mark.parametrize("role", ["coach", "owner", "client"])
def test_inactive_person_sees_nobody(world, role):
    user = world.client.user if role == "client" else getattr(world, role)
    user.is_active = False
    user.save()
    assert reads(user) == writes(user) == set()
    assert access.client_of(fresh(user)) is None


def test_engagement_holds_on_its_last_day_and_not_on_the_next(world):
    engagement = world.client.engagements.get()
    engagement.ended_on = world.practice.today()
    engagement.save()
    assert reads(world.coach) == {"Clemens"}
    engagement.ended_on -= DAY
    engagement.save()
    assert reads(world.coach) == set()
    with pytest.raises(Http404):
        access.access_client(fresh(world.coach), world.client.pk)


def test_engagement_that_starts_tomorrow_does_not_hold_yet(world):
    Engagement.objects.filter(client=world.client).update(started_on=world.practice.today() + DAY)
    assert reads(world.coach) == set()


def test_days_are_counted_where_the_practice_is(world):
    """Kiritimati is 14 hours ahead of UTC and Midway 11 behind: at any moment their dates differ."""
    world.practice.time_zone = "Pacific/Kiritimati"
    world.practice.save()
    here = world.practice.today()
    Engagement.objects.filter(client=world.client).update(started_on=here)
    assert reads(world.coach) == {"Clemens"}
    world.practice.time_zone = "Pacific/Midway"
    world.practice.save()
    assert world.practice.today() < here
    assert reads(world.coach) == set()


def test_ended_membership_sees_nobody_though_its_engagement_runs(world):
    world.coach_membership.ended_on = world.practice.today() - DAY
    world.coach_membership.save()
    assert reads(world.coach) == writes(world.coach) == set()
    with pytest.raises(Http404):
        access.access_membership(fresh(world.coach))


def test_second_membership_after_the_first_ended_opens_only_the_new_practice(world):
    world.coach_membership.ended_on = world.practice.today()
    world.coach_membership.save()
    there = world.outsider_membership.practice
    Membership.objects.create(practice=there, user=world.coach, started_on=there.today())
    assert access.membership_of(fresh(world.coach)).practice == there
    assert reads(world.coach) == set()


def test_engagement_does_not_outlive_the_clients_move_to_another_practice(world):
    world.client.practice = world.outsider_membership.practice
    world.client.save()
    assert reads(world.coach) == set()
    assert reads(world.outsider) == {"Clemens", "Oskar"}


def test_coach_who_is_also_a_client_reads_both(world):
    Client.objects.create(practice=world.practice, user=world.coach)
    assert reads(world.coach) == {"Clemens", "Carla"}
    assert writes(world.coach) == {"Clemens"}


def test_stranger_gets_404_and_reader_403(world):
    with pytest.raises(Http404):
        access.access_client_as_coach(world.colleague, world.client.pk)
    with pytest.raises(PermissionDenied):
        access.access_client_as_coach(world.client.user, world.client.pk)
    with pytest.raises(PermissionDenied):
        access.access_client_as_owner(world.coach, world.client.pk)
    assert access.access_client_as_owner(world.owner, world.client.pk) == world.client


def test_own_client_record_is_found_only_by_its_person(world):
    assert access.access_own_client(world.client.user) == world.client
    with pytest.raises(Http404):
        access.access_own_client(world.coach)


def test_coach_is_refused_where_an_owner_is_needed(world):
    with pytest.raises(PermissionDenied):
        access.access_membership(world.coach, owner=True)
    with pytest.raises(Http404):
        access.access_membership(world.client.user, owner=True)


def test_practice_of_coach_and_of_client_is_theirs(world):
    assert access.practice_of(world.coach) == access.practice_of(world.client.user) == world.practice
    assert access.practice_of(world.nobody) is None
    assert access.practice_of(AnonymousUser()) is None


def test_invitations_are_seen_by_their_sender_and_the_owner(world):
    make_member(world.practice, "cora")
    for sender, name in ((world.coach, "a"), (world.colleague, "b")):
        Invitation.objects.create(
            practice=world.practice,
            email=f"{name}@example.org",
            invited_by=sender,
            token_hash=name,
            expires_at=dt.datetime.now(dt.UTC) + DAY,
        )

    def seen(user):
        return set(Invitation.objects.visible_to(fresh(user)).values_list("email", flat=True))

    assert seen(world.coach) == {"a@example.org"}
    assert seen(world.owner) == {"a@example.org", "b@example.org"}
    assert seen(world.outsider) == seen(world.client.user) == set()


def test_engagement_may_be_ended_by_its_coach_its_client_and_the_owner_only(world):
    def may_end(user):
        return Engagement.objects.writable_by(fresh(user)).filter(client=world.client).exists()

    assert may_end(world.coach)
    assert may_end(world.client.user)
    assert may_end(world.owner)
    assert not may_end(world.colleague)
    assert not may_end(world.outsider)
    assert not may_end(world.other_client.user)


def test_second_coach_of_a_client_sees_the_first_ones_engagement_but_cannot_end_it(world):
    Engagement.objects.create(coach=world.colleague_membership, client=world.client, started_on=world.practice.today())
    first = world.client.engagements.get(coach=world.coach_membership)
    assert first in Engagement.objects.visible_to(fresh(world.colleague))
    assert first not in Engagement.objects.writable_by(fresh(world.colleague))


def test_membership_costs_one_query_a_request(world, django_assert_num_queries):
    user = fresh(world.coach)
    with django_assert_num_queries(1):
        access.membership_of(user)
        access.membership_of(user)
        access.practice_of(user)
