"""How quickly a tap on the phone is kept, in real Chromium with the processor slowed four times.

    .venv/bin/pytest -s bench/tap.py

The figure is one of this machine at this moment, so it stands here and not among the tests.
"""

import statistics

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import (  # noqa: F401 - fixtures
    browser,
    open_page,
    phone,
    playwright_here,
    sign_in,
    whole_browser,
)
from tests.browser.offline import HERE, a_week, kept, open_session
from tests.conftest import quick_passwords, world  # noqa: F401 - fixtures

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

MOST_MS = 50
# From the tap to the change of the row that says the set is on the phone, measured by the page's own clock.
WATCH = """() => {
  const tapped = [], kept = [];
  document.addEventListener("submit", () => tapped.push(performance.now()), true);
  new MutationObserver(() => {
    const last = [...document.querySelectorAll(".exercise:not([hidden]) .sync")].filter(
      (one) => one.textContent.startsWith("on this phone")).length;
    if (last > kept.length) kept.push(performance.now());
  }).observe(document.body, { subtree: true, childList: true, characterData: true });
  globalThis.measured = () => kept.map((at, number) => at - tapped[number]);
}"""


def test_tap_is_kept_within_50_ms(phone, live_server, sign_in, world):  # noqa: F811
    gym = a_week(world)
    gym.planned.slots.update(sets=27)
    sign_in(phone, gym.client.user)
    open_session(phone, live_server, gym.planned)
    kept(phone)
    phone.context.set_offline(True)
    phone.context.new_cdp_session(phone).send("Emulation.setCPUThrottlingRate", {"rate": 4})
    phone.evaluate(WATCH)
    medians = []
    # Whatever else this machine does meanwhile only adds: the quietest of three rounds is the page's own time.
    for start in (0, 9, 18):
        for number in range(start, start + 9):
            phone.locator(HERE + "[data-log]").tap()
            expect(phone.locator("[data-set]")).to_have_count(number + 1)
            phone.wait_for_timeout(350)  # a second tap at once is one and the same
        times = phone.evaluate("measured()")
        assert len(times) == start + 9
        medians.append(statistics.median(times[start:]))
        print(f"from tap to kept: median {medians[-1]:.0f} ms of {len(times) - start}")
        if medians[-1] < MOST_MS:
            return
    assert min(medians) < MOST_MS, medians
