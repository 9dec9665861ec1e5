"""How soon after a keystroke the new tally is painted, in real Chromium with the processor slowed four times.

    .venv/bin/pytest -s bench/tally_browser.py

A week of 30 slots with the whole library: a prescription is typed and left with Enter. The page's own clock runs from
the key to the frame after the one that shows the new sums, and is split at the request: what lies outside it is the
browser's own, and is judged here; what lies inside is the server's (`bench/tally.py`), slowed by whatever else this
machine does.
"""

import re
import statistics

import pytest
from allauth.account.models import EmailAddress
from playwright.sync_api import expect

from programs.models import Exercise
from programs.services.library_load import library_load
from programs.services.program_write import program_create
from tests.browser.conftest import (  # noqa: F401 - fixtures
    browser,
    desk,
    open_page,
    playwright_here,
    sign_in,
    whole_browser,
)
from tests.conftest import quick_passwords, world  # noqa: F401 - fixtures
from tests.programs.factories import document, slot
from tests.programs.library_fixture import library_data

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

MOST_MS = 150
ROUNDS = 9
WATCH = """() => {
  const keys = [], painted = [];
  document.addEventListener("keydown", (event) => { if (event.key === "Enter") keys.push(performance.now()); }, true);
  new MutationObserver((changes) => {
    const sums = changes.some((one) => [...one.addedNodes].some((node) => node.id === "editor-side"));
    if (sums) requestAnimationFrame(() => requestAnimationFrame(() => painted.push(performance.now())));
  }).observe(document.body, { subtree: true, childList: true });
  globalThis.measured = () => {
    const sent = performance.getEntriesByType("resource").filter((one) => one.name.endsWith("/change/"));
    return painted.map((at, number) => {
      const request = sent[number];
      return [at - keys[number], request.startTime - keys[number], request.duration, at - request.responseEnd];
    });
  };
}"""


def test_the_page_itself_takes_little_of_the_time(desk, live_server, sign_in, world):  # noqa: F811
    library_load(library_data())
    exercises = list(Exercise.objects.order_by("pk").values_list("pk", flat=True))
    chosen = [slot(f"s{n}", exercises[n * 7 % len(exercises)], 3) for n in range(30)]
    content = document(*[chosen[number::5] for number in range(5)])
    program = program_create(practice=world.practice, author=world.coach, name="30 slots", document=content)
    EmailAddress.objects.get_or_create(
        user=world.coach, defaults={"email": world.coach.email, "verified": True, "primary": True}
    )
    sign_in(desk, world.coach)
    desk.goto(f"{live_server.url}/programs/{program.pk}/")
    desk.context.new_cdp_session(desk).send("Emulation.setCPUThrottlingRate", {"rate": 4})
    desk.evaluate(WATCH)
    for number in range(ROUNDS):
        line = desk.locator("#text-w1s7")
        line.fill(f"{2 + number % 4} x 8-12 @ 1-2 RIR")
        line.press("Enter")
        expect(desk.locator("#editor-status")).to_contain_text(re.compile(rf"version {number + 2}\b"), timeout=30_000)
        desk.wait_for_timeout(300)
    times = desk.evaluate("measured()")
    assert len(times) == ROUNDS
    whole, before, server, after = (statistics.median(kind) for kind in zip(*times, strict=True))
    own = statistics.median(one + two for _whole, one, _server, two in times)
    print(
        f"\nfrom key to painted tally {whole:.0f} ms: {before:.0f} until it is sent, {server:.0f} request, "
        f"{after:.0f} until it is painted; the page's own {own:.0f}"
    )
    assert own < MOST_MS
