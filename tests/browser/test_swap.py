"""Swap an exercise on the gym floor for one of its listed substitutes, with and without a connection."""

import pytest
from playwright.sync_api import expect

from logbook.models import SetLog, SlotSkip
from programs.models import ExerciseLink
from tests.browser.offline import HERE, a_week, cold_start, kept, log_sets, open_session, sent
from tests.logbook.factories import make_exercise

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def session(phone, live_server, sign_in, world):
    gym = a_week(world)
    gym.cable = make_exercise("cable-curl", "stack")
    ExerciseLink.objects.create(exercise=gym.curl, other=gym.cable, kind="substitute")
    sign_in(phone, gym.client.user)
    open_session(phone, live_server, gym.planned)
    kept(phone)
    phone.gym = gym
    return phone


def test_swap_without_a_connection_keeps_slot_reason_and_prescription(session, live_server):
    gym, context = session.gym, session.context
    context.set_offline(True)
    page = cold_start(session)
    open_session(page, live_server, gym.planned)
    page.locator("#swap summary").tap()
    page.locator("#swap label", has_text="not there").tap()
    page.locator("#swap button", has_text="Cable curl").tap()
    expect(page.locator(HERE + "h2")).to_have_text("Cable curl")
    expect(page.locator(HERE + ".ask")).to_contain_text("3 × 8–12 @ 1–2 RIR")
    expect(page.locator(HERE + "header")).to_contain_text("instead of Curl")
    log_sets(page, [("25", "10"), ("25", "9")])
    expect(page.locator("[data-list] .state").first).to_have_text("skipped")
    expect(page.locator("[data-list] .state").nth(1)).to_have_text("2 of 3")
    expect(page.locator("[data-progress]")).to_have_text("2 of 3 sets")
    # The page from the cold again: the substitute is there, with its sets.
    page = cold_start(page)
    open_session(page, live_server, gym.planned)
    expect(page.locator("[data-list] li")).to_have_count(2)
    context.set_offline(False)
    page.evaluate("dispatchEvent(new Event('online'))")
    sent(page)
    skip = SlotSkip.objects.get()
    assert (skip.skipped, skip.reason) == (True, "missing")
    rows = SetLog.objects.order_by("performed_at")
    assert [(row.exercise, row.slot, row.reps) for row in rows] == [
        (gym.cable, gym.planned.slots.get(), 10),
        (gym.cable, gym.planned.slots.get(), 9),
    ]
    # And from the server: the same session, the same list.
    open_session(page, live_server, gym.planned)
    expect(page.locator("[data-list] li")).to_have_count(2)
    expect(page.locator("[data-progress]")).to_have_text("2 of 3 sets")


def test_pain_as_the_reason_shows_the_caution(session):
    session.locator("#swap summary").tap()
    expect(session.locator("[data-swap-pain]")).to_be_hidden()
    session.locator("#swap label", has_text="pain").tap()
    expect(session.locator("[data-swap-pain]")).to_be_visible()


def test_swap_chosen_but_not_begun_survives_a_reload(session):
    session.locator("#swap summary").tap()
    session.locator("#swap button", has_text="Cable curl").tap()
    sent(session)
    session.reload()
    session.wait_for_selector("body[data-ready]")
    expect(session.locator(HERE + "h2")).to_have_text("Cable curl")
