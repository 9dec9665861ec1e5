"""Nobody is left in front of nothing: a session that ended under a form, a fragment, or an address only forms know."""

import pytest
from django.contrib.messages import get_messages
from django.urls import reverse

from tests.accounts.helpers import verify
from tests.conftest import PASSWORD

pytestmark = pytest.mark.django_db
PAGE = "http://testserver/clients/?q=clem"


def after_sign_in(url):
    return f"{reverse('account_login')}?next={url}"


def words(response):
    return [str(message) for message in get_messages(response.wsgi_request)]


@pytest.fixture
def form_only(world):
    return reverse("engagement-end", args=[world.client.engagements.get().pk])


def test_form_sent_after_the_session_ended_leads_back_to_its_page(client, form_only):
    response = client.post(form_only, headers={"referer": PAGE})
    assert (response.status_code, response.url) == (302, after_sign_in("/clients/%3Fq%3Dclem"))
    assert words(response) == ["You were signed out meanwhile, so nothing was saved. Sign in and send it again."]
    assert "nothing was saved" in client.get(response.url).text


@pytest.mark.parametrize("referer", ["", "https://elsewhere.example/clients/", "//elsewhere.example/"])
def test_a_page_that_is_not_ours_is_not_led_back_to(client, form_only, referer):
    response = client.post(form_only, headers={"referer": referer})
    assert response.url == after_sign_in(reverse("home"))


@pytest.mark.parametrize("path", ["//elsewhere.example/x", "/\\elsewhere.example/x", "///elsewhere.example"])
def test_no_address_of_ours_leads_elsewhere_after_sign_in(client, world, form_only, path):
    """Whoever gets a person to open such an address of ours would have them signed in here and sent there."""
    sign_in_at = client.post(form_only, headers={"referer": f"http://testserver{path}"}).url
    fields = {"login": verify(world.owner).email, "password": PASSWORD}
    assert client.post(sign_in_at, fields).url == reverse("home")


def test_fragment_asked_for_after_the_session_ended_opens_sign_in_in_its_place(client):
    response = client.get(reverse("board"), headers={"hx-request": "true", "hx-current-url": PAGE})
    assert response["HX-Redirect"] == after_sign_in("/clients/%3Fq%3Dclem")
    assert words(response) == ["You were signed out meanwhile. Sign in to go on."]


def test_a_page_itself_keeps_its_address_and_says_nothing(client):
    response = client.get(reverse("client-list"), headers={"referer": PAGE})
    assert response.url == after_sign_in(reverse("client-list"))
    assert words(response) == []


def test_what_a_script_sends_by_itself_leaves_no_message(client, form_only):
    response = client.post(form_only, headers={"referer": PAGE, "sec-fetch-mode": "cors"})
    assert words(response) == []


def test_failed_sign_in_is_not_taken_for_an_ended_session(client, world):
    response = client.post(reverse("account_login"), {"login": world.coach.email, "password": "wrong"})
    assert words(response) == []


def test_address_of_a_form_opened_by_hand_has_words_and_a_way_on(client, world):
    client.force_login(world.coach)
    response = client.get(reverse("invitation-withdraw", args=[1]), headers={"accept": "text/html,*/*"})
    assert response.status_code == 405
    assert response["Allow"] == "POST"
    assert "There is no page at this address" in response.text
    assert 'href="/"' in response.text


def test_a_program_that_asks_by_the_wrong_method_gets_no_page(client, world):
    client.force_login(world.coach)
    response = client.get(reverse("invitation-withdraw", args=[1]), headers={"accept": "application/json"})
    assert (response.status_code, response.content) == (405, b"")
