"""Monday: every open question of the demo's 24 clients decided under its row, and what the clients then see."""

import re

import pytest
from django.conf import settings
from django.core.management import call_command
from django.test import Client as Browser
from django.urls import reverse
from playwright.sync_api import expect

from accounts.models import User
from coaching.models import Decision
from coaching.reads.prompts import KINDS
from logbook.models import Comment
from programs.models import Exercise

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]
MOST_INTERACTIONS = 2


@pytest.fixture
def demo(transactional_db):
    call_command("load_library", verbosity=0)
    call_command("load_demo", verbosity=0)
    return User.objects.get(email="marit@demo.example")


def signed_in_as(page, user, base):
    """Give the page a session of `user`: who signs in how is tested elsewhere."""
    made = Browser()
    made.force_login(user, backend=settings.AUTHENTICATION_BACKENDS[-1])
    value = made.cookies[settings.SESSION_COOKIE_NAME].value
    page.context.add_cookies([{"name": settings.SESSION_COOKIE_NAME, "value": value, "url": base}])


def decide(page, ask):
    """Decide the question behind the link `ask` and return the interactions that it took."""
    holder = page.locator(f"#{ask.get_attribute('aria-controls')}")
    interactions = 0
    for control, then in ((ask, "[data-accept]"), (holder.locator("[data-accept]"), "[data-undo]")):
        control.click()
        interactions += 1
        holder.locator(then).wait_for()
    return interactions


def shows(phone, base, decision):
    """Say whether the client's phone shows what was decided."""
    if decision.kind == "contact":
        phone.goto(base + reverse("comments"))
        return Comment.objects.get(pk=decision.proposal["comment"]).text in phone.inner_text("main")
    change = decision.changes[0]
    phone.goto(base + reverse("planned-session", args=[change["session"]]))
    text = phone.inner_text("main")
    after = change["after"]
    if decision.kind == "deload":
        return phone.locator("h1 .tag", has_text="deload").count() == 1
    name, sets = Exercise.objects.get(pk=after["exercise_id"]).name, after["sets"]
    # A session that can be begun opens one exercise with its sets, and lists all with how many of them are done.
    listed = rf"{re.escape(name)}\s+\d+ of {sets}\b"
    return name in text and (f"{sets} ×" in text.replace("\u00a0", " ") or re.search(listed, text) is not None)


@pytest.mark.timeout(600)
def test_every_open_question_takes_two_interactions_and_reaches_the_phone(demo, live_server, desk, open_page):
    base = live_server.url
    signed_in_as(desk, demo, base)
    desk.goto(base + reverse("board"))
    asked = desk.locator("[data-ask]").all()
    assert asked
    taken = [decide(desk, ask) for ask in asked]
    assert max(taken) <= MOST_INTERACTIONS
    assert Decision.objects.filter(coach=demo, answer="accept", undone_at=None).count() == len(asked)
    decided = Decision.objects.filter(coach=demo, undone_at=None).select_related("client__user")
    assert {decision.kind for decision in decided} == set(KINDS), "all five kinds of question were met"
    desk.goto(base + reverse("board"))
    assert desk.locator("[data-ask]").count() == 0, "nothing new was asked by deciding"
    missing = []
    for decision in decided:
        phone = open_page(viewport={"width": 390, "height": 844}, service_workers="block")
        signed_in_as(phone, decision.client.user, base)
        if not shows(phone, base, decision):
            missing.append(f"{decision.client}: {decision.kind}")
        phone.context.close()
    assert not missing


@pytest.fixture
def few(transactional_db):
    call_command("load_library", verbosity=0)
    call_command("load_demo", clients=2, verbosity=0)
    return User.objects.get(email="marit@demo.example")


@pytest.mark.timeout(120)
def test_one_key_goes_from_question_to_question_whichever_row_they_stand_in(few, live_server, desk):
    signed_in_as(desk, few, live_server.url)
    desk.goto(live_server.url + reverse("board"))
    asked = desk.locator("[data-ask]").count()
    rows = desk.locator("tr:has([data-ask])").count()
    assert asked >= rows >= 2, "the rows of both clients ask something"
    for number in range(1, asked + 1):
        desk.keyboard.press("o")
        desk.wait_for_selector("[data-question]:not(.answered):focus")
        desk.keyboard.press("a")
        expect(desk.locator("[data-undo]")).to_have_count(number)
        desk.wait_for_selector("[data-row]:focus")
    desk.keyboard.press("o")
    assert desk.locator("[data-said]").inner_text() == "No open question below."
    assert Decision.objects.filter(answer="accept").count() == asked


@pytest.mark.timeout(120)
def test_the_board_is_worked_through_by_keyboard(few, live_server, desk):
    """Next client, open, accept, take back, refuse with a reason; the focus is always where one goes on."""
    base = live_server.url
    signed_in_as(desk, few, base)
    desk.goto(base + reverse("board"))
    key = desk.keyboard.press

    def on():
        """Wait for the focus on the row: an answer is on the page a moment before the focus moves there."""
        return desk.wait_for_selector("[data-row]:focus")

    key("j")
    assert on()
    key("o")
    desk.wait_for_selector("[data-question]:focus")
    assert desk.locator("[data-ask][aria-expanded=true]").count() == 1
    key("Escape")
    assert desk.locator("[data-question]").count() == 0
    key("o")
    desk.wait_for_selector("[data-question]:focus")
    key("a")
    desk.wait_for_selector("[data-undo]")
    assert on()
    assert "session" in desk.locator("[data-said]").inner_text()
    key("u")
    desk.wait_for_selector("text=Taken back: the plan is as it was.")
    assert on()
    key("o")
    desk.wait_for_selector("[data-question]:focus")
    key("r")
    desk.keyboard.type("Away next week.")
    key("Enter")
    desk.wait_for_selector("[data-undo]")
    assert on()
    answers = list(Decision.objects.order_by("pk").values_list("answer", "reason"))
    assert answers == [("accept", ""), ("refuse", "Away next week.")]
    assert Decision.objects.filter(undone_at=None).count() == 1
