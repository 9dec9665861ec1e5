"""Steps of the tests without a connection."""

import datetime as dt

from allauth.account.models import EmailAddress
from django.utils import timezone
from playwright.sync_api import Page, expect

from logbook.models import SetLog
from tests.logbook.factories import make_exercise, make_planned

HERE = ".exercise:not([hidden]) "


def a_week(world):
    """Today's session (three sets of a curl) and one in two days, for a client who can sign in; another client too."""
    for client in (world.client, world.other_client):
        EmailAddress.objects.create(user=client.user, email=client.user.email, verified=True, primary=True)
    world.today = timezone.now().date()
    world.curl = make_exercise("curl", "barbell")
    reason = {"action": "reps_up", "code": "add_reps", "params": {"reps": 9}}
    target = {"target_load_kg": 42.5, "target_reps": 9, "target_reason": reason}
    world.planned = make_planned(world.client, world.today, {"exercise": world.curl, **target})
    in_two_days = world.today + dt.timedelta(days=2)
    world.later = make_planned(world.client, in_two_days, {"exercise": world.curl}, day_name="Day two")
    return world


def open_session(page: Page, live_server, planned) -> None:
    page.goto(f"{live_server.url}/train/planned/{planned.pk}/")
    page.wait_for_selector("body[data-ready]")


def until(page: Page, condition: str) -> None:
    """Wait for a condition of the page's script; Playwright's own way is refused by the content security policy."""
    for _ in range(150):
        if page.evaluate(condition):
            return
        page.wait_for_timeout(50)
    raise AssertionError(f"never came true: {condition}")


def kept(page: Page) -> None:
    """Wait until the worker rules the page and the pages of the next days are on the phone."""
    page.wait_for_selector("body[data-kept]")
    until(page, "navigator.serviceWorker.controller !== null")
    until(page, "navigator.serviceWorker.ready.then((one) => one.active.state === 'activated')")


def cold_start(page: Page) -> Page:
    """Close every page and open a new one: nothing of the old pages' memory is left."""
    context = page.context
    fresh = context.new_page()
    for old in context.pages:
        if old is not fresh:
            old.close()
    return fresh


def log_sets(page: Page, sets: list[tuple[str, str]]) -> list[tuple[float, int]]:
    """Type and log sets of the shown exercise; return (load, reps) as the server should have them."""
    for load, reps in sets:
        before = page.locator(HERE + "[data-set]").count()
        page.fill(HERE + "[name=load]", load)
        page.fill(HERE + "[name=reps]", reps)
        page.locator(HERE + "[data-log]").tap()
        expect(page.locator(HERE + "[data-set]")).to_have_count(before + 1)
    return [(float(load.replace(",", ".")), int(reps)) for load, reps in sets]


def sent(page: Page) -> None:
    """Wait until nothing is left on the phone only."""
    until(page, "((one) => one && !one.store.entries().length)(sinewright.delivery ?? sinewright.app?.outbox)")


def standing() -> list[SetLog]:
    return list(SetLog.objects.filter(deleted_at=None).order_by("performed_at"))


def values(rows: list[SetLog]) -> list[tuple[float, int]]:
    return [(row.load, row.reps) for row in rows]
