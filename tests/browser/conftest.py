"""Real Chromium at desk size and at phone size with touch, against pytest-django's live server.

`desk` and `phone` are Playwright pages; `sign_in(page, user)` goes through the sign-in page with the tests' password.
Every page fails its test on a script error or a broken content security policy.
"""

import os
import time
from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Browser, Page, Playwright, expect, sync_playwright

from scripts.services import find_program
from tests.browser.stack import FLAGS, PATIENCE_MS
from tests.conftest import PASSWORD

# Django's own guard against blocking calls would refuse the fixtures, since Playwright runs an event loop here.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")

expect.set_options(timeout=PATIENCE_MS)

DESK = {"viewport": {"width": 1280, "height": 900}}
PHONE = {"viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True, "device_scale_factor": 2}


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Begin with the longest, so that no worker is left alone with one at the end: they have asked for more time."""

    def patience(item: pytest.Item) -> float:
        asked = item.get_closest_marker("timeout") if item.get_closest_marker("browser") else None
        return asked.args[0] if asked else 0

    items.sort(key=patience, reverse=True)


@pytest.fixture(scope="session")
def playwright_here() -> Iterator[Playwright]:
    with sync_playwright() as playwright:
        yield playwright


def launched(playwright: Playwright, path: str | None) -> Browser:
    if not path:
        if os.environ.get("CI") == "true":
            pytest.fail("no Chromium, and CI=true: run scripts/test")
        pytest.skip("no Chromium found: run scripts/test")
    return playwright.chromium.launch(executable_path=path, args=FLAGS)


@pytest.fixture(scope="session")
def whole_browser(playwright_here) -> Iterator[Browser]:
    """Chromium as people have it, which also sends in the background; slower than `browser`."""
    chromium = launched(playwright_here, os.environ.get("SINEWRIGHT_TEST_BROWSER") or find_program("chromium"))
    yield chromium
    chromium.close()


@pytest.fixture(scope="session")
def browser(request, playwright_here) -> Iterator[Browser]:
    """Chromium without the windows around its pages where there is one, else `whole_browser`."""
    path = find_program("chromium-headless-shell")
    if not path:
        yield request.getfixturevalue("whole_browser")
        return
    chromium = launched(playwright_here, path)
    yield chromium
    chromium.close()


@pytest.fixture
def open_page(browser) -> Iterator[Callable[..., Page]]:
    """Open a page in a fresh profile; `open_page(**PHONE)`. Script errors on it fail the test at its end."""
    contexts, faults = [], []

    def opened(**options: object) -> Page:
        context = browser.new_context(**options)
        context.set_default_timeout(PATIENCE_MS)
        contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: faults.append(f"{page.url}: {error}"))
        page.on(
            "console",
            lambda message: (
                faults.append(f"{page.url}: {message.text}") if "Content Security Policy" in message.text else None
            ),
        )
        return page

    yield opened
    for context in contexts:
        keeping = bool(context.service_workers)
        context.close()
        if keeping:  # a phone keeps pages in the background: let the server end the last of these requests
            time.sleep(0.3)
    assert not faults, "\n".join(faults)


@pytest.fixture
def desk(open_page) -> Page:
    return open_page(**DESK)


@pytest.fixture
def phone(open_page) -> Page:
    return open_page(**PHONE)


@pytest.fixture
def sign_in(live_server) -> Callable[..., None]:
    """Sign `user` in on `page` the way a person does."""

    def signed_in(page: Page, user, password: str = PASSWORD, base: str | None = None) -> None:
        page.goto(f"{base or live_server.url}/account/login/")
        page.fill("input[name=login]", user.email)
        page.fill("input[name=password]", password)
        page.press("input[name=password]", "Enter")
        page.wait_for_url(lambda url: "/account/login" not in url)

    return signed_in
