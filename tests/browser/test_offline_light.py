"""What the phone's pages weigh (how quickly a tap is kept: bench/tap.py): a promise for a gym floor."""

import gzip
from urllib.parse import urlsplit

import pytest

from tests.browser.offline import a_week, open_session

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

MOST_BYTES = 120 * 1024


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
    # A list, since reading a body lets further answers come in.
    for path, response in list(bodies.items()):
        if path.startswith(("/train/phone", "/api/")) or response.status != 200:
            continue  # kept afterwards, for the next visits
        body = response.body()
        weights[path] = len(body) if path.endswith((".woff2", ".png")) else len(gzip.compress(body))
    assert "/static/logbook/session.js" in weights
    assert sum(weights.values()) <= MOST_BYTES, weights
