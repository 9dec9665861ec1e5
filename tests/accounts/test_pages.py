"""The pages of this room: where they lead, what they keep, and how many queries they cost."""

import re

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from accounts.models import Engagement, Practice
from accounts.services.engagement import engagement_start
from accounts.services.invitation import invitation_create
from tests.conftest import make_client, make_member

BACKEND = "allauth.account.auth_backends.AuthenticationBackend"


@pytest.fixture
def as_(client):
    def sign_in(user):
        client.force_login(user, backend=BACKEND)
        return client

    return sign_in


def queries(browser, name: str) -> int:
    with CaptureQueriesContext(
        connection,
    ) as seen:
        assert browser.get(reverse(name)).status_code == 200
    return len(seen)


def test_home_leads_each_to_their_own_start(world, as_, client):
    assert client.get(reverse("home")).url.startswith(reverse("account_login"))
    assert as_(world.coach).get(reverse("home")).url == reverse("board")
    assert as_(world.client.user).get(reverse("home")).url == reverse("today")
    page = as_(world.nobody).get(reverse("home"))
    assert world.nobody.email in page.text
    assert reverse("practice-start") in page.text


def test_person_without_ties_opens_a_practice(world, as_):
    browser = as_(world.nobody)
    assert browser.post(reverse("practice-start"), {"name": ""}).context["form"].errors
    browser.post(reverse("practice-start"), {"name": "Own"})
    assert Practice.objects.get(name="Own").memberships.get().user == world.nobody
    # A new practice requires a second factor of its coaches, the owner first.
    assert browser.get(reverse("client-list")).url == reverse("mfa_activate_totp")


def test_profile_saves_and_keeps_what_was_typed_on_error(world, as_):
    browser = as_(world.coach)
    fields = {"name": "Carla New", "time_zone": "Europe/Oslo", "load_unit": "lb"}
    response = browser.post(reverse("profile"), fields | {"time_zone": "Nowhere"})
    assert list(response.context["form"].errors) == ["time_zone"]
    assert 'value="Carla New"' in response.text
    assert '<a href="/you/" aria-current="page">Carla</a>' in response.text
    browser.post(reverse("profile"), fields)
    world.coach.refresh_from_db()
    assert (world.coach.name, world.coach.time_zone, world.coach.load_unit) == ("Carla New", "Europe/Oslo", "lb")


def test_profile_of_a_client_is_the_phones_and_of_a_coach_the_desks(world, as_):
    assert 'class="phone"' in as_(world.client.user).get(reverse("profile")).text
    assert 'class="phone"' not in as_(world.coach).get(reverse("profile")).text


def test_practice_saves_and_keeps_what_was_typed_on_error(world, as_):
    browser = as_(world.owner)
    response = browser.post(reverse("practice"), {"name": "", "time_zone": "Europe/Oslo"})
    assert list(response.context["form"].errors) == ["name"]
    assert '<option value="Europe/Oslo" selected>' in response.text
    assert "<h1>Rowan Yard Strength</h1>" in response.text
    browser.post(reverse("practice"), {"name": "Renamed", "time_zone": "Europe/Oslo", "require_coach_mfa": "on"})
    world.practice.refresh_from_db()
    assert (world.practice.name, world.practice.require_coach_mfa) == ("Renamed", True)


def test_coach_sees_the_practice_without_its_settings(world, as_):
    page = as_(world.coach).get(reverse("practice")).text
    assert "Colin" in page
    assert 'name="require_coach_mfa"' not in page
    assert reverse("membership-edit", args=[world.colleague_membership.pk]) not in page


def test_client_list_is_the_coachs_own_and_the_owners_whole(world, as_):
    page = as_(world.coach).get(reverse("client-list")).text
    assert ("Clemens" in page, "Cosima" in page) == (True, False)
    page = as_(world.owner).get(reverse("client-list")).text
    assert ("Clemens" in page, "Cosima" in page, "Oskar" in page) == (True, True, False)
    assert "Carla" in page


@pytest.mark.parametrize(("words", "found"), [("clem", 1), ("CLEMENS@", 1), ("cos clem", 0), ("o", 2), ("  ", 2)])
def test_search_takes_every_word_by_name_or_address(world, as_, words, found):
    response = as_(world.owner).get(reverse("client-list"), {"q": words})
    assert len(response.context["clients"].object_list) == found


def test_client_list_comes_in_pages_and_keeps_the_search(world, as_):
    for number in range(30):
        make_client(world.practice, f"extra{number:02}", world.coach_membership)
    response = as_(world.coach).get(reverse("client-list"), {"q": "extra"})
    assert len(response.context["clients"].object_list) == 25
    assert re.search(r'rel="next" href="\?q=extra&amp;page=2"', response.text)
    assert len(as_(world.coach).get(reverse("client-list"), {"page": 2}).context["clients"].object_list) == 6


def test_coach_changes_the_training_status(world, as_):
    page = reverse("client-edit", args=[world.client.pk])
    browser = as_(world.coach)
    assert "training_status" in browser.post(page, {"training_status": "wizard"}).context["form"].errors
    browser.post(page, {"training_status": "advanced"})
    world.client.refresh_from_db()
    assert world.client.training_status == "advanced"


@pytest.mark.parametrize(("name", "role"), [("client-list", "coach"), ("client-list", "owner"), ("practice", "owner")])
def test_list_costs_the_same_for_few_rows_as_for_many(world, as_, name, role):
    browser = as_(getattr(world, role))
    for number in range(2):
        grow(world, number)
    browser.get(reverse(name))
    few = queries(browser, name)
    for number in range(2, 14):
        grow(world, number)
    assert queries(browser, name) == few
    assert few <= 10  # covers make the tenth


def grow(world, number: int) -> None:
    """One more client with two coaches, one more coach, one more invitation."""
    coach = make_member(world.practice, f"coach{number}")
    client = make_client(world.practice, f"grown{number}", world.coach_membership)
    engagement_start(client=client, coach=coach)
    invitation_create(
        inviter=world.coach_membership, kind="client", email=f"i{number}@example.org", name="", base_url="http://x"
    )


def test_profile_of_a_client_costs_a_fixed_number(world, as_, django_assert_num_queries):
    browser = as_(world.client.user)
    # session, user, membership (second factor, frame), own client record, engagements
    with django_assert_num_queries(5):
        browser.get(reverse("profile"))
    engagement_start(client=world.client, coach=world.colleague_membership)
    with django_assert_num_queries(5):
        browser.get(reverse("profile"))


def test_client_page_of_engagements_costs_the_same_with_many(world, as_):
    browser = as_(world.owner)
    page = reverse("client-edit", args=[world.client.pk])
    with CaptureQueriesContext(connection) as few:
        browser.get(page)
    for number in range(5):
        Engagement.objects.create(
            coach=make_member(world.practice, f"more{number}"), client=world.client, started_on=world.practice.today()
        )
    with CaptureQueriesContext(connection) as many:
        browser.get(page)
    assert len(many) == len(few) <= 8  # the audit makes the eighth
