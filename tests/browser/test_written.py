"""What is half written waits in the browser, for its writer alone, until it was sent."""

import pytest
from allauth.account.models import EmailAddress
from django.urls import reverse

from logbook.models import Comment
from tests.coaching import factories as make
from tests.conftest import make_world

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]
KEPT = "() => Object.keys(localStorage).filter((key) => key.startsWith('sinewright.written.'))"
TEXT = "textarea[name=text]"


@pytest.fixture
def world(transactional_db):
    people = make_world()
    for user in (people.coach, people.owner, people.client.user):
        EmailAddress.objects.get_or_create(user=user, defaults={"email": user.email, "verified": True, "primary": True})
    return people


@pytest.mark.timeout(120)
def test_a_comment_and_a_note_wait_on_the_desk(world, live_server, desk, sign_in):
    comments = live_server.url + reverse("client-comments", args=[world.client.pk])
    notes = live_server.url + reverse("client-notes", args=[world.client.pk])
    board = live_server.url + reverse("board")
    week = f"{live_server.url}{reverse('client-page', args=[world.client.pk])}?week=2026-11-16"
    sign_in(desk, world.coach)
    for page, text in ((comments, "To you"), (week, "About this week"), (notes, "To us alone")):
        desk.goto(page)
        desk.locator(TEXT).evaluate("field => field.closest('details')?.setAttribute('open', '')")
        desk.locator(TEXT).press_sequentially(text)
    desk.goto(board)
    for page, text in ((comments, "To you"), (week, "About this week"), (notes, "To us alone")):
        desk.goto(page)
        assert desk.locator(TEXT).input_value() == text
        assert desk.locator(TEXT).is_visible()
        assert desk.get_by_text("It is not sent yet").count() == 1
    desk.goto(week.replace("16", "09"))
    assert desk.locator(TEXT).input_value() == ""
    # Sent, it is gone from the browser; a text that the server refuses stays in its field.
    desk.goto(comments)
    desk.click("text=Send")
    desk.wait_for_selector(".comment >> text=To you")
    assert desk.locator(TEXT).input_value() == ""
    desk.goto(notes)
    desk.click("text=Save the note")
    desk.wait_for_selector(".comment >> text=To us alone")
    assert desk.locator(TEXT).input_value() == ""
    desk.goto(week)
    desk.click("text=Sign out")
    desk.wait_for_url(lambda url: "/clients/" not in url)
    assert desk.evaluate(KEPT) == []
    assert Comment.objects.count() == 1


@pytest.mark.timeout(120)
def test_nobody_else_on_this_browser_finds_it(world, live_server, desk, sign_in):
    comments = live_server.url + reverse("client-comments", args=[world.client.pk])
    sign_in(desk, world.coach)
    desk.goto(comments)
    desk.locator(TEXT).press_sequentially("Only mine")
    # The sign-in expires, and a colleague signs in.
    desk.context.clear_cookies()
    sign_in(desk, world.owner)
    desk.goto(comments)
    assert desk.locator(TEXT).input_value() == ""
    assert desk.evaluate(KEPT) == []


@pytest.mark.timeout(120)
def test_a_comment_waits_on_the_phone_and_is_cleared_when_it_is_sent(world, live_server, phone, sign_in):
    make.train(world.client, world.coach, make.make_catalogue(), weeks=2, seed=3)
    session = world.client.sessions.latest("started_at")
    done = live_server.url + reverse("performed-session", args=[session.pk])
    sign_in(phone, world.client.user)
    phone.goto(done)
    phone.locator(TEXT).press_sequentially("The bar moved")
    phone.goto(live_server.url + reverse("today"))
    phone.goto(done)
    assert phone.locator(TEXT).input_value() == "The bar moved"
    with phone.expect_navigation():
        phone.click("text=Send")
    assert phone.locator(".comment", has_text="The bar moved").count() == 1
    phone.wait_for_load_state()
    assert phone.locator(TEXT).input_value() == ""
    assert phone.evaluate(KEPT) == []
