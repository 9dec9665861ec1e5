"""Each fault in the middle of a session: afterwards every set is on the server exactly once, as typed, in order."""

import contextlib
import os
import re

import pytest
from playwright.sync_api import Error, expect

from scripts.services import find_program
from tests.browser import faults
from tests.browser.conftest import PHONE
from tests.browser.offline import HERE, a_week, kept, log_sets, open_session, sent, standing, values

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def browser(whole_browser):
    """What is kept is sent in the background, too."""
    return whole_browser


@pytest.fixture
def gym(world):
    return a_week(world)


@pytest.fixture
def session(phone, live_server, sign_in, gym):
    sign_in(phone, gym.client.user)
    open_session(phone, live_server, gym.planned)
    kept(phone)
    return phone


@pytest.mark.parametrize("fault", faults.FAULTS)
def test_fault_in_the_middle_of_a_session(session, fault):
    typed = log_sets(session, [("40", "8")])
    sent(session)
    faults.break_next(session, fault)
    typed += log_sets(session, [("42,5", "9"), ("45", "7")])
    session.evaluate("dispatchEvent(new Event('online'))")
    sent(session)
    assert values(standing()) == typed


def test_answer_that_takes_long_holds_nothing_up(session):
    slow = faults.Slow()
    session.route(faults.API, slow, times=1)
    typed = log_sets(session, [("40", "8")])
    expect(session.locator(HERE + "[data-set]").first).to_contain_text("on this phone, sending…")
    typed += log_sets(session, [("42,5", "9"), ("45", "7")])
    expect(session.locator(HERE + "[data-set]").last).to_contain_text("on this phone, sending…")
    slow.let_go()
    sent(session)
    assert values(standing()) == typed


def test_page_closed_in_the_moment_of_the_tap_loses_nothing(session, live_server, gym):
    """The database has not written it yet; the row still says "saving"."""
    session.context.set_offline(True)
    slow = "IDBDatabase.prototype.transaction = () => { throw new Error('not yet'); }"
    session.evaluate(f"() => {{ {slow} }}")
    session.fill(HERE + "[name=load]", "40")
    session.locator(HERE + "[data-log]").tap()
    expect(session.locator(HERE + "[data-set]")).to_contain_text("saving…")
    page = session.context.new_page()
    session.close()
    session.context.set_offline(False)
    open_session(page, live_server, gym.planned)
    sent(page)
    assert [row.load for row in standing()] == [40]


def test_kill_of_the_browser_after_each_of_ten_sets(browser, live_server, sign_in, gym, tmp_path):
    gym.planned.slots.update(sets=10)
    path = os.environ.get("SINEWRIGHT_TEST_BROWSER") or find_program("chromium")
    profile = tmp_path / "profile"
    context = faults.launch(browser.browser_type, path, profile, **PHONE)
    page = context.pages[0]
    sign_in(page, gym.client.user)
    open_session(page, live_server, gym.planned)
    kept(page)
    context.close()  # once in peace, so that the sign-in itself is on the disk
    typed = []
    for number in range(10):
        context = faults.launch(browser.browser_type, path, profile, offline=True, **PHONE)
        page = context.pages[0]
        open_session(page, live_server, gym.planned)
        expect(page.locator("[data-set]")).to_have_count(number)
        typed += log_sets(page, [(str(40 + number), "8")])
        # The browser may send it in the background, past the page's own lack of a network: then it says "saved".
        expect(page.locator("[data-set]").last).to_contain_text(re.compile("on this phone|saved"))
        faults.kill(profile)
        with contextlib.suppress(Error):
            context.close()
    context = faults.launch(browser.browser_type, path, profile, **PHONE)
    page = context.pages[0]
    open_session(page, live_server, gym.planned)
    sent(page)
    context.close()
    assert values(standing()) == typed
    assert [row.number for row in standing()] == list(range(1, 11))
