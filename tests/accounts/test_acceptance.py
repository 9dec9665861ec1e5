"""Accepting: once, by whoever holds the link, in words when it cannot be."""

import datetime as dt
import threading
import time

import pytest
from allauth.account.models import EmailAddress
from django.db import OperationalError, connections
from django.test import Client as Browser
from django.urls import reverse
from django.utils import timezone

from accounts.models import Client, Engagement, Invitation, Membership, User
from accounts.services import Refused
from accounts.services.acceptance import invitation_accept, invitation_accept_as_new
from accounts.services.invitation import invitation_create
from tests.accounts.helpers import is_signed_in, sign_in, verify

FIELDS = {"name": "Newt", "password": "three unrelated words", "time_zone": "Asia/Tokyo", "load_unit": "lb"}
BACKEND = "allauth.account.auth_backends.AuthenticationBackend"


@pytest.fixture
def issued(world):
    return issue(world)


def issue(world, kind="client", email="newt@example.org", inviter=None):
    inviter = inviter or (world.owner.memberships.get() if kind == "coach" else world.coach_membership)
    return invitation_create(inviter=inviter, kind=kind, email=email, name="Newt", base_url="http://testserver")


def path(issued) -> str:
    return issued.link.removeprefix("http://testserver")


def signed_in(user) -> Browser:
    browser = Browser()
    browser.force_login(user, backend=BACKEND)
    return browser


def test_new_person_gets_an_account_an_engagement_and_is_signed_in(world, issued, client):
    response = client.post(path(issued), FIELDS)
    assert response.status_code == 302
    assert is_signed_in(client)
    user = User.objects.get(email="newt@example.org")
    assert (user.name, user.time_zone, user.load_unit) == ("Newt", "Asia/Tokyo", "lb")
    assert user.client.practice == world.practice
    engagement = user.client.engagements.get()
    assert (engagement.coach, engagement.started_on) == (world.coach_membership, world.practice.today())
    assert EmailAddress.objects.get(user=user).verified
    invitation = Invitation.objects.get()
    assert (invitation.state, invitation.accepted_by) == ("accepted", user)
    assert is_signed_in(sign_in(user, FIELDS["password"])[0])


def test_opening_the_link_consumes_nothing(issued, client):
    for _ in range(3):
        assert client.get(path(issued)).status_code == 200
    assert client.head(path(issued)).status_code == 405
    assert Invitation.objects.get().state == "open"
    assert not User.objects.filter(email="newt@example.org").exists()


def test_new_coach_joins_the_practice_and_is_sent_to_the_second_factor(world, client):
    world.practice.require_coach_mfa = True
    world.practice.save()
    client.post(path(issue(world, "coach")), FIELDS)
    membership = Membership.objects.get(user__email="newt@example.org")
    assert (membership.practice, membership.role) == (world.practice, "coach")
    assert not Client.objects.filter(user=membership.user).exists()
    assert client.get(reverse("client-list")).url == reverse("mfa_activate_totp")


@pytest.mark.parametrize(
    ("field", "value"),
    [("name", ""), ("password", "short"), ("password", "newt@example"), ("time_zone", "Nowhere"), ("load_unit", "")],
)
def test_error_stands_beside_its_field_and_the_link_stays_open(issued, client, field, value):
    response = client.post(path(issued), FIELDS | {field: value})
    assert list(response.context["form"].errors) == [field]
    assert Invitation.objects.get().state == "open"
    if field != "time_zone":
        assert '<option value="Asia/Tokyo" selected>' in response.text


def test_person_with_an_account_is_asked_to_sign_in_and_comes_back(world, client):
    issued = issue(world, email=world.nobody.email)
    page = client.get(path(issued)).text
    assert f"{reverse('account_login')}?next={path(issued)}" in page
    assert client.post(path(issued), FIELDS).status_code == 200
    assert Invitation.objects.get().state == "open"
    verify(world.nobody)
    fields = {"login": world.nobody.email, "password": "correct horse battery", "next": path(issued)}
    assert client.post(reverse("account_login"), fields).url == path(issued)


def test_signed_in_person_confirms(world):
    browser = signed_in(world.nobody)
    issued = issue(world, email=world.nobody.email)
    assert "Accept as Nadia" in browser.get(path(issued)).text
    assert browser.post(path(issued)).url == reverse("home")
    assert world.nobody.client.engagements.get().coach == world.coach_membership


def test_other_persons_link_says_so_and_does_not_verify_the_address(world, issued):
    browser = signed_in(world.nobody)
    assert "It was sent to newt@example.org" in browser.get(path(issued)).text
    EmailAddress.objects.create(user=world.nobody, email=world.nobody.email, verified=False, primary=True)
    browser.post(path(issued))
    assert not EmailAddress.objects.get(user=world.nobody).verified
    assert Client.objects.filter(user=world.nobody).exists()


@pytest.mark.parametrize(
    ("field", "words"),
    [("accepted_at", "has been used"), ("withdrawn_at", "was withdrawn"), ("expires_at", "has expired")],
)
@pytest.mark.parametrize("method", ["get", "post"])
def test_spent_link_is_gone_in_words(issued, client, field, words, method):
    Invitation.objects.update(**{field: timezone.now() - dt.timedelta(seconds=1)})
    response = getattr(client, method)(path(issued), FIELDS)
    assert response.status_code == 410
    assert words in response.text
    assert not User.objects.filter(email="newt@example.org").exists()


def test_unknown_link_is_not_found_in_words(db, client):
    response = client.get(reverse("invitation-accept", args=["no-such-link"]))
    assert response.status_code == 404
    assert "We do not know this link" in response.text


def test_spent_link_leads_who_used_it_to_their_first_page(issued, client):
    client.post(path(issued), FIELDS)
    assert client.get(path(issued)).url == reverse("home")


def test_spent_link_names_who_is_signed_in_when_it_was_somebody_else(world, issued, client):
    Browser().post(path(issued), FIELDS)
    client.force_login(world.coach)
    response = client.get(path(issued))
    assert response.status_code == 410
    assert f"signed in as {world.coach}" in response.text
    assert reverse("account_login") not in response.text


def test_link_works_once(issued, client):
    client.post(path(issued), FIELDS)
    assert Browser().post(path(issued), FIELDS | {"name": "Second"}).status_code == 410
    assert Engagement.objects.filter(client__user__name="Second").count() == 0


def test_coach_of_another_practice_is_told_to_leave_it_first(world):
    issued = issue(world, "coach", email=world.outsider.email)
    response = signed_in(world.outsider).post(path(issued))
    assert "You already work in Far Bank Training" in response.text
    assert Invitation.objects.get().state == "open"
    assert world.outsider.memberships.count() == 1


def test_client_trained_elsewhere_is_told_to_end_that_first(world):
    issued = issue(world, email=world.outside_client.user.email)
    response = signed_in(world.outside_client.user).post(path(issued))
    assert "You are trained at Far Bank Training" in response.text
    assert Invitation.objects.get().state == "open"


def test_client_who_left_elsewhere_moves_here_with_their_record(world):
    Engagement.objects.filter(client=world.outside_client).update(ended_on=world.practice.today())
    issued = issue(world, email=world.outside_client.user.email)
    browser = signed_in(world.outside_client.user)
    assert "Your log moves with you from Far Bank Training" in browser.get(path(issued)).text
    browser.post(path(issued))
    world.outside_client.refresh_from_db()
    assert world.outside_client.practice == world.practice
    assert world.outside_client.engagements.count() == 2


def test_second_coach_of_the_practice_may_train_the_client_too(world):
    issued = issue(world, email=world.client.user.email, inviter=world.colleague_membership)
    signed_in(world.client.user).post(path(issued))
    assert world.client.engagements.running().count() == 2


def test_client_of_the_same_coach_is_told_so(world, issued):
    response = signed_in(world.client.user).post(path(issued))
    assert "Carla already trains Clemens" in response.text


def test_coach_may_train_themselves(world):
    issued = issue(world, email=world.coach.email)
    signed_in(world.coach).post(path(issued))
    assert world.coach.client.engagements.get().coach == world.coach_membership


def test_client_of_a_coach_who_left_is_told_so(world, issued):
    Membership.objects.filter(pk=world.coach_membership.pk).update(ended_on=world.practice.today())
    response = Browser().post(path(issued), FIELDS)
    assert "no longer works at Rowan Yard Strength" in response.text
    assert not User.objects.filter(email="newt@example.org").exists()


def test_refusal_leaves_no_half_made_account(world, issued):
    Invitation.objects.update(withdrawn_at=timezone.now())
    with pytest.raises(Refused):
        invitation_accept_as_new(invitation=issued.invitation, **FIELDS)
    assert not User.objects.filter(email="newt@example.org").exists()


def test_taken_address_is_refused_and_leaves_the_invitation_open(world):
    issued = issue(world, email=world.nobody.email)
    with pytest.raises(Refused, match="Sign in"):
        invitation_accept_as_new(invitation=issued.invitation, **FIELDS)
    assert Invitation.objects.get().state == "open"


def test_of_two_who_accept_at_once_one_wins(transactional_db, world):
    """Two threads with their own connections hold the same open invitation and go off together."""
    issued = issue(world)
    people = [world.nobody, world.outside_client.user]
    Engagement.objects.filter(client=world.outside_client).update(ended_on=world.practice.today())
    start, results = threading.Barrier(2), []

    def accept(user):
        invitation = Invitation.objects.select_related("practice", "invited_by").get(pk=issued.invitation.pk)
        start.wait()
        while len(results) < 2:
            try:
                invitation_accept(invitation=invitation, user=user)
                results.append("joined")
            except Refused:
                results.append("refused")
            except OperationalError:  # SQLite in memory does not wait for a lock as a file does
                time.sleep(0.01)
                continue
            break
        connections.close_all()

    threads = [threading.Thread(target=accept, args=[user]) for user in people]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(results) == ["joined", "refused"]
    assert Engagement.objects.running().filter(coach=world.coach_membership).count() == 2


def test_second_of_two_who_both_saw_it_open_is_refused(world):
    issued = issue(world)
    first, second = (Invitation.objects.select_related("practice").get() for _ in range(2))
    invitation_accept(invitation=first, user=world.nobody)
    with pytest.raises(Refused):
        invitation_accept(invitation=second, user=world.outsider)
    assert Invitation.objects.get(pk=issued.invitation.pk).accepted_by == world.nobody
    assert not Client.objects.filter(user=world.outsider).exists()
