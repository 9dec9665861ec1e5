"""What a session says to someone who hears the page: names that stand alone, news said once, a focus that stays."""

import datetime as dt
from collections import Counter

import pytest
from playwright.sync_api import expect

from logbook.models import BodyMass, SetLog
from tests.browser.offline import HERE, a_week, kept, open_session, until
from tests.logbook.factories import make_exercise, make_planned

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

NAMED = ("button", "link", "textbox", "checkbox", "DisclosureTriangle")
FOCUSED = "() => Boolean(document.activeElement.offsetParent)"
WITHIN = """(element) => {
  const { top, bottom } = element.getBoundingClientRect();
  return top >= 0 && bottom <= innerHeight;
}"""


@pytest.fixture
def session(phone, live_server, sign_in, world):
    """Today's session: one row of two sets, one side at a time, then a curl with a target."""
    gym = a_week(world)
    gym.row = make_exercise("one-arm-row", "dumbbell", laterality="single")
    curl = {"exercise": gym.curl, "sets": 3, "target_load_kg": 42.5, "target_reps": 9}
    gym.both = make_planned(gym.client, gym.today, {"exercise": gym.row, "sets": 2}, curl)
    sign_in(phone, gym.client.user)
    open_session(phone, live_server, gym.both)
    return phone


def names(page) -> Counter:
    tree = page.context.new_cdp_session(page).send("Accessibility.getFullAXTree")["nodes"]
    shown = [node for node in tree if not node.get("ignored") and node["role"]["value"] in NAMED]
    return Counter((node["role"]["value"], node["name"]["value"]) for node in shown)


def log(page, **fields):
    before = page.locator(HERE + "[data-set]").count()
    for name, value in fields.items():
        page.fill(f"{HERE}[name={name}]", value)
    page.locator(HERE + "[data-log]").tap()
    expect(page.locator(HERE + "[data-set]")).to_have_count(before + 1)
    page.wait_for_timeout(320)  # a second tap at once is one and the same


def finish_row(page):
    log(page, load="18", reps="8")
    for _ in range(3):
        log(page)


def test_no_two_controls_have_the_same_name(session):
    session.locator(HERE + ".tick").tap()
    log(session, load="8", reps="8")
    log(session, load="18", reps="8")
    found = names(session)
    assert {name: count for name, count in found.items() if count > 1} == {}
    assert {role for role, name in found if not name.strip()} == set()
    for name in ("Load less", "Load more", "Repetitions fewer", "Repetitions more"):
        assert ("button", name) in found
    assert ("button", "Log 18\N{NO-BREAK SPACE}kg × 8, RIR 1: Set 1 of 2, right") in found
    assert ("link", "Edit warm-up set 1, left") in found
    assert ("link", "Edit set 1, left") in found


def test_set_is_said_once_when_it_is_saved(session):
    said = session.locator("[data-said]")
    session.evaluate("""() => {
      globalThis.heard = [];
      const region = document.querySelector("[data-said]");
      new MutationObserver(() => heard.push(region.textContent)).observe(region, { childList: true });
    }""")
    log(session, load="18", reps="8")
    expect(said).to_have_text("set 1, left, 18 kg × 8, RIR 1: saved")
    assert session.evaluate("heard.length") == 1
    assert session.locator(".exercise [role=status], .exercise [aria-live]").count() == 0


def test_waiting_is_said_once_for_each_set_and_not_at_each_attempt(session):
    kept(session)
    session.context.set_offline(True)
    session.evaluate("""() => {
      globalThis.heard = 0;
      new MutationObserver(() => (heard += 1)).observe(document.querySelector("#delivery"), { childList: true });
    }""")
    log(session, load="18", reps="8")
    expect(session.locator("#delivery")).to_contain_text("No connection")
    said = session.evaluate("heard")
    for _ in range(5):
        session.evaluate("sinewright.app.show(sinewright.app.current)")
    assert session.evaluate("heard") == said


def test_end_of_a_rest_is_said(session):
    session.evaluate("sinewright.app.rest.start(1)")
    expect(session.locator("[data-said]")).to_have_text("Rest is over.")


def test_last_set_hands_the_focus_and_the_thumb_to_what_follows(session):
    finish_row(session)
    go_on = session.locator(HERE + "[data-finished] [data-go]")
    expect(go_on).to_be_focused()
    assert go_on.evaluate(WITHIN)
    go_on.tap()
    expect(session.locator(HERE + "h2")).to_be_focused()


@pytest.mark.parametrize("size", [{"width": 320, "height": 568}, {"width": 844, "height": 390}])
def test_what_follows_is_in_view_wherever_the_page_stood(session, size):
    session.set_viewport_size(size)
    log(session, load="18", reps="8")
    for _ in range(2):
        log(session)
    session.evaluate("document.querySelector('.exercise:not([hidden]) .extras').scrollIntoView({ block: 'start' })")
    session.evaluate("document.querySelector('.exercise:not([hidden]) [data-log]').click()")
    expect(session.locator(HERE + "[data-finished]")).to_be_visible()
    assert session.locator(HERE + "[data-finished] [data-go]").evaluate(WITHIN)


def test_skip_and_its_return_keep_the_focus(session):
    session.locator("#skip summary").tap()
    session.locator("#skip form button").tap()
    expect(session.locator(HERE + "[data-finished] [data-go]")).to_be_focused()
    session.locator(HERE + "[data-unskip-form] button").tap()
    expect(session.locator(HERE + "h2")).to_be_focused()


def test_pain_report_is_answered_where_it_can_be_seen(session):
    session.locator("#pain summary").tap()
    session.locator("#pain form button").tap()
    expect(session.locator("#pain [name=score]").first).to_be_focused()
    expect(session.locator("#pain [role=alert]")).to_have_text("Choose a number from 0 to 10.")
    session.locator("#pain .eleven label", has_text="3").tap()
    session.locator("#pain form button").tap()
    answer = session.locator("#messages", has_text="Pain report kept")
    expect(answer).to_be_visible()
    assert answer.evaluate(WITHIN)
    assert session.evaluate(FOCUSED)


def finish(page):
    finish_row(page)
    page.locator(HERE + "[data-finished] [data-go]").tap()
    for _ in range(3):
        log(page)
    page.locator(HERE + "[data-finished] [data-go]").tap()
    page.locator("#finish .effort label", has_text="very hard").tap()
    page.locator("#finish form[data-finish-form] button").tap()


def test_finished_session_leads_to_its_summary_and_rests_no_more(session, live_server):
    finish(session)
    session.wait_for_url("**/train/done/**")
    done = session.url
    session.locator("main a", has_text="Change or add something").tap()
    session.wait_for_selector("body[data-ready]")
    go_on = session.locator(HERE + "[data-finished] [data-go]")
    expect(go_on).to_have_text("To its summary")
    expect(session.locator(HERE + "[data-rest]").first).to_be_hidden()
    assert session.get_by_text("Finish session").filter(visible=True).count() == 0
    session.locator("#finish summary").tap()
    expect(session.locator("#finish form button")).to_have_text("Save")
    go_on.tap()
    session.wait_for_url(done)
    assert SetLog.objects.count() == 7


def test_end_that_waits_on_the_phone_leads_back_to_today(session):
    kept(session)
    session.context.set_offline(True)
    finish(session)
    expect(session.locator("#finish [data-sync]")).to_contain_text("You can go home.")
    go_on = session.locator(HERE + "[data-finished] [data-go]")
    expect(go_on).to_have_text("Finished. Back to today")
    until(session, "sinewright.app.store.waiting().length > 8")
    go_on.tap()
    session.wait_for_url("**/train/")


@pytest.mark.parametrize(("day", "rests"), [("now", True), ("then", False)])
def test_missed_session_asks_once_when_it_was_done_and_rests_if_today(phone, live_server, sign_in, world, day, rests):
    gym = a_week(world)
    missed = make_planned(gym.client, gym.today - dt.timedelta(days=2), {"exercise": gym.curl}, day_name="Day zero")
    sign_in(phone, gym.client.user)
    open_session(phone, live_server, missed)
    phone.locator(f"{HERE}label:has([name=when][value={day}])").tap()
    log(phone, load="40", reps="10")
    expect(phone.locator("[data-when]").first).to_be_hidden()
    expect(phone.locator(HERE + "[data-when]")).to_be_hidden()
    expect(phone.locator(HERE + "[data-set-form] [data-rest]")).to_be_visible(visible=rests)


def test_body_mass_is_asked_until_it_is_kept_also_without_a_connection(phone, live_server, sign_in, world):
    gym = a_week(world)
    planned = make_planned(gym.client, gym.today, {"exercise": make_exercise("pull-up", load_kind="body_plus")})
    sign_in(phone, gym.client.user)
    open_session(phone, live_server, planned)
    kept(phone)
    form = phone.locator(HERE + "[data-mass-form]")
    form.locator("[name=mass]").fill("heavy")
    form.locator("button").tap()
    expect(form.locator("[data-wrong]")).to_have_text("This must be a number.")
    expect(form.locator("[name=mass]")).to_be_focused()
    phone.context.set_offline(True)
    form.locator("[name=mass]").fill("71,5")
    form.locator("button").tap()
    expect(form).to_be_hidden()
    expect(phone.locator("#messages")).to_contain_text("Body mass kept.")
    expect(phone.locator(HERE + "h2")).to_be_focused()
    phone.context.set_offline(False)
    phone.evaluate("dispatchEvent(new Event('online'))")
    expect(phone.locator("#messages")).to_contain_text("Body mass saved.")
    assert BodyMass.objects.get().mass == 71.5


def test_refused_body_mass_is_asked_for_again(phone, live_server, sign_in, world):
    gym = a_week(world)
    planned = make_planned(gym.client, gym.today, {"exercise": make_exercise("pull-up", load_kind="body_plus")})
    sign_in(phone, gym.client.user)
    open_session(phone, live_server, planned)
    form = phone.locator(HERE + "[data-mass-form]")
    form.locator("[name=mass]").fill("7000")
    form.locator("button").tap()
    expect(form.locator("[data-wrong]")).to_contain_text("not saved:")
    expect(form.locator("[name=mass]")).to_have_value("7000")
    assert not BodyMass.objects.exists()
