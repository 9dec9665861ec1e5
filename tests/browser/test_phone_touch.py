"""Every place to touch on the pages a client meets on the phone is 48 px high, and every link there is told apart."""

import pytest

from logbook.models import SetLog
from tests.browser.offline import a_week, log_sets, open_session
from tests.logbook.factories import make_planned

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

# A choice or a tick is touched on its label, and a line of text that is its own link on the padding around it.
SMALL = """() => [...document.querySelectorAll(`main :is(a, button, summary, select, input:not([type=hidden])), .slim a,
  .top a`)].map((one) => (one.matches("[type=radio], [type=checkbox]") ? one.closest("label") ?? one : one))
  .filter((one) => one.offsetParent && !one.closest("p.small"))
  .map((one) => [one.textContent.trim().slice(0, 60), one.getBoundingClientRect()])
  .filter(([, box]) => box.height < 47.5 || box.width < 47.5)
  .map(([words, box]) => `${words}: ${Math.round(box.width)} x ${Math.round(box.height)}`)"""
ALIKE = """() => {
  const names = [...document.querySelectorAll("main a")].filter((one) => one.offsetParent)
    .map((one) => [one.textContent.trim().replace(/\\s+/g, " "), one.href]);
  const elsewhere = ([name, href]) => names.some(([other, to]) => other === name && to !== href);
  return names.filter(elsewhere).map(([name]) => name);
}"""
PAGES = ("train/", "train/plan/", "train/done/", "train/check-in/", "train/comments/", "train/phone/")


@pytest.fixture
def trained(phone, live_server, sign_in, world):
    """Signed in, a session of two exercises half done, another one missed."""
    gym = a_week(world)
    sign_in(phone, gym.client.user)
    open_session(phone, live_server, gym.planned)
    log_sets(phone, [("40", "10"), ("40", "9")])
    phone.wait_for_selector('[data-set][data-sync="saved"]:nth-child(2)')
    make_planned(gym.client, gym.today, {"exercise": gym.curl}, day_name="Day three")
    return phone


def test_places_to_touch_are_large_and_links_are_told_apart(trained, live_server):
    session = SetLog.objects.first().session_id
    small, alike = {}, {}
    for path in (*PAGES, f"train/session/{session}/", f"train/done/{session}/"):
        trained.goto(f"{live_server.url}/{path}")
        trained.wait_for_load_state("load")
        small[path], alike[path] = trained.evaluate(SMALL), trained.evaluate(ALIKE)
    assert {path: found for path, found in small.items() if found} == {}
    assert {path: found for path, found in alike.items() if found} == {}


@pytest.mark.parametrize("path", ["account/login/", "account/password/reset/"])
def test_way_in_is_as_large(phone, live_server, path, db):
    phone.goto(f"{live_server.url}/{path}")
    fields = ".narrow :is(input:not([type=hidden]), .button)"
    heights = phone.locator(fields).evaluate_all("(all) => all.map((one) => one.getBoundingClientRect().height)")
    assert heights
    assert min(heights) >= 48


def test_screening_leads_to_the_first_question_without_an_answer(phone, live_server, sign_in, world):
    gym = a_week(world)
    sign_in(phone, gym.client.user)
    phone.goto(f"{live_server.url}/train/screening/?again=yes")
    phone.locator("fieldset.yes-no").first.locator("label", has_text="yes").tap()
    phone.locator("button", has_text="Save the answers").tap()
    phone.wait_for_selector("[role=alert]")
    second = phone.locator("fieldset.yes-no").nth(1)
    assert second.locator("input").first.evaluate("(one) => one === document.activeElement")
