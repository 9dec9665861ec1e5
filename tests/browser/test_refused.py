"""A form that was refused says it where the cursor is."""

import pytest
from allauth.account.models import EmailAddress
from playwright.sync_api import expect

from tests.conftest import make_world

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def page(transactional_db, desk, sign_in):
    coach = make_world().coach
    EmailAddress.objects.get_or_create(user=coach, defaults={"email": coach.email, "verified": True, "primary": True})
    sign_in(desk, coach)
    return desk


def send(page):
    """Send the page's form past the browser's own check, which no other browser has to make."""
    form = page.locator("main form").last
    form.evaluate("form => { form.noValidate = true; }")
    form.locator("button[type=submit]").first.click()


@pytest.mark.timeout(120)
def test_a_refused_form_puts_the_cursor_in_the_first_field_to_change(page, live_server):
    page.goto(f"{live_server.url}/equipment/new/")
    expect(page.locator("[aria-invalid=true]")).to_have_count(0)
    page.locator("input[name=name]").fill("long bar")
    send(page)
    expect(page.locator("input[name=bar]")).to_be_focused()
    expect(page.locator("input[name=bar]")).to_be_in_viewport()
    expect(page.locator("input[name=name]")).to_have_value("long bar")


@pytest.mark.timeout(120)
def test_a_form_that_comes_for_the_first_time_moves_nothing(page, live_server):
    page.goto(f"{live_server.url}/equipment/new/")
    assert page.evaluate("performance.getEntriesByType('navigation')[0].responseStatus") == 200
    expect(page.locator("[aria-invalid=true]:focus")).to_have_count(0)
