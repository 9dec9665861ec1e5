"""What the phone's pages weigh and how quickly a tap is kept: the promises of a page for a gym floor."""

import gzip
import statistics
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import expect

from tests.browser.offline import HERE, a_week, kept, open_session

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

MOST_BYTES = 120 * 1024
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


def test_first_visit_of_the_session_weighs_at_most_120_kb_compressed(phone, live_server, sign_in, world):
    gym = a_week(world)
    sign_in(phone, gym.client.user)
    phone.goto("about:blank")

    cdp = phone.context.new_cdp_session(phone)
    cdp.send("Network.clearBrowserCache")
    bodies = {}

    def keep(response):
        if response.request.resource_type in ("document", "stylesheet", "script", "font", "image", "manifest", "fetch"):
            bodies.setdefault(urlsplit(response.url).path, response)

    phone.on("response", keep)
    open_session(phone, live_server, gym.planned)
    phone.wait_for_timeout(500)
    weights = {}
    for path, response in bodies.items():
        if path.startswith(("/train/phone", "/api/")) or response.status != 200:
            continue  # kept afterwards, for the next visits
        body = response.body()
        weights[path] = len(body) if path.endswith((".woff2", ".png")) else len(gzip.compress(body))
    assert "/static/logbook/session.js" in weights
    assert sum(weights.values()) <= MOST_BYTES, weights


def test_tap_is_kept_on_the_phone_within_50_ms_at_a_quarter_of_the_speed(phone, live_server, sign_in, world):
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
            phone.wait_for_timeout(100)
        times = phone.evaluate("measured()")
        assert len(times) == start + 9
        medians.append(statistics.median(times[start:]))
        if medians[-1] < MOST_MS:
            return
    assert min(medians) < MOST_MS, medians
