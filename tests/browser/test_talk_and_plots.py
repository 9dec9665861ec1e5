"""A coach's comment is read and answered on the phone; a plot has its table, and leaves as picture and as numbers."""

import pytest
from allauth.account.models import EmailAddress
from django.urls import reverse

from coaching.models import WeekSummary
from coaching.recompute import run
from logbook.models import Comment, UnreadComment
from tests.coaching import factories as make
from tests.conftest import make_world

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def world(transactional_db):
    people = make_world()
    for user in (people.coach, people.client.user):
        EmailAddress.objects.get_or_create(user=user, defaults={"email": user.email, "verified": True, "primary": True})
    return people


@pytest.mark.timeout(120)
def test_comment_and_answer_then_a_plot_and_its_files(world, live_server, desk, phone, sign_in):
    make.train(world.client, world.coach, make.make_catalogue(), weeks=4, seed=3)
    run.work_off(world.client.pk)
    session = world.client.sessions.latest("started_at")
    done = live_server.url + reverse("performed-session", args=[session.pk])

    sign_in(desk, world.coach)
    desk.goto(done)
    desk.fill("textarea[name=text]", "Two more repetitions next time.")
    desk.click("text=Send")
    desk.wait_for_selector(".comment >> text=Two more repetitions")

    sign_in(phone, world.client.user)
    phone.goto(live_server.url + reverse("today"))
    assert "1 new" in phone.inner_text("main")
    phone.click("text=Open the session it is about")
    # It counts as read once it was looked at, not when the page was fetched.
    assert UnreadComment.objects.count() == 1
    phone.locator(".comment.new").scroll_into_view_if_needed()
    phone.wait_for_selector("form[data-seen].sent", state="attached")
    assert not UnreadComment.objects.exists()

    phone.fill("textarea[name=text]", "Gladly, the bar moved well.")
    with phone.expect_navigation():
        phone.click("text=Send")
    assert phone.locator(".comment", has_text="Gladly").count() == 1
    assert Comment.objects.filter(author=world.client.user, session=session).count() == 1

    desk.goto(live_server.url + reverse("board"))
    assert "1 new comment" in desk.inner_text("main")
    desk.goto(live_server.url + reverse("client-volume", args=[world.client.pk]))
    desk.wait_for_selector("body[data-plots=ready]")
    figure = desk.locator("[data-plot=volume]")
    assert figure.locator("canvas").count() == 1
    table = figure.get_by_role("region", name="Table:")
    table.focus()
    weeks = WeekSummary.objects.filter(client=world.client).count()
    assert table.locator("tbody tr").count() == weeks
    # By keyboard: Enter on the button and on the link.
    with desk.expect_download() as picture:
        figure.get_by_role("button", name="Save the picture").press("Enter")
    assert picture.value.suggested_filename.startswith("volume-")
    with open(picture.value.path(), "rb") as file:
        content = file.read()
    assert content.startswith(b"\x89PNG")
    assert len(content) > 5_000
    with desk.expect_download() as numbers:
        figure.get_by_role("link", name="Save the numbers").press("Enter")
    with open(numbers.value.path(), encoding="utf-8") as file:
        lines = file.read().splitlines()
    assert lines[0].startswith("week of,")
    assert len(lines) == weeks + 1
