"""From a request to a program in a real browser: an impossible one is mended with one key, the week is edited."""

import re

import pytest
from allauth.account.models import EmailAddress
from playwright.sync_api import expect

from programs.models import DraftRun
from tests.conftest import make_world
from tests.programs.factories import make_library

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def world(transactional_db):
    people = make_world()
    known = {"email": people.coach.email, "verified": True, "primary": True}
    EmailAddress.objects.get_or_create(user=people.coach, defaults=known)
    people.library = make_library()
    return people


def test_draft_mend_and_edit(desk, live_server, sign_in, world):
    sign_in(desk, world.coach)
    desk.goto(f"{live_server.url}/programs/")
    desk.get_by_role("link", name="Draft a week").click()
    # Two days of 20 minutes cannot hold 16 sets of biceps.
    desk.get_by_label("Monday").fill("20")
    desk.get_by_label("Wednesday").fill("")
    desk.get_by_label("Friday").fill("20")
    for group in ("lats", "triceps"):
        desk.get_by_label(f"Priority of {group}").select_option("out")
    desk.get_by_label("At least, biceps").fill("16")
    desk.get_by_label("At most, biceps").fill("20")
    desk.get_by_label("At least so many sets is a must: biceps").check()
    # An exercise is found, and kept while another is looked for.
    finder = desk.locator("#include-q")
    finder.press_sequentially("reach")
    desk.locator("#rows-include").get_by_label("Long reach curl").wait_for()
    finder.press("Enter")
    desk.keyboard.press("Space")
    finder.fill("hammer")
    expect(desk.locator("#rows-include").get_by_label("Hammer grip curl")).to_be_visible()
    expect(desk.locator("#rows-include").get_by_label("Long reach curl")).to_be_checked()
    desk.locator(".save").get_by_role("button", name="Draft the week").click()

    expect(desk.get_by_role("heading", name="These cannot all hold")).to_be_visible()
    expect(desk.get_by_text("At least 16 sets a week for biceps.")).to_be_visible()
    key = desk.locator("li", has_text="Ask for no more than").locator("[data-key]").get_attribute("data-key")
    # Who reads quickly presses it before the page's script is there to listen.
    waiting = []
    desk.route("**/programs/draft*.js", lambda route: waiting.append(route))
    desk.reload(wait_until="commit")
    expect(desk.get_by_role("heading", name="These cannot all hold")).to_be_visible()
    desk.keyboard.press(key)
    assert waiting, "the script has not come yet"
    waiting[0].continue_()
    desk.unroute("**/programs/draft*.js")
    expect(desk.get_by_role("button", name="Make it a program")).to_be_visible()
    expect(desk.get_by_text("Long reach curl").first).to_be_visible()

    desk.get_by_role("button", name="Make it a program").click()
    desk.wait_for_url(re.compile(r"/programs/\d+/"))
    line = desk.locator(".slot .line").first
    line.fill("5 x 6-8 @ 1 RIR")
    line.press("Enter")
    expect(desk.locator("#editor-status")).to_contain_text(re.compile(r"version 2\b"))
    run = DraftRun.objects.latest("pk")
    assert run.program.document["blocks"][0]["weeks"][0]["days"][0]["slots"][0]["sets"] == 5
