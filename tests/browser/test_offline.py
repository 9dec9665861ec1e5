"""The phone without a connection: what was kept opens, what is logged stays and arrives once."""

import json

import pytest
from django.utils import timezone
from playwright.sync_api import expect

from logbook.models import BodyMass, CheckIn, Session, SetLog
from tests.browser import faults
from tests.browser.conftest import PHONE
from tests.browser.offline import (
    HERE,
    a_week,
    cold_start,
    kept,
    log_sets,
    open_session,
    sent,
    standing,
    until,
    values,
)

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def browser(whole_browser):
    """What is kept is sent in the background, too."""
    return whole_browser


@pytest.fixture
def gym(world):
    return a_week(world)


@pytest.fixture
def session(phone, live_server, sign_in, gym):
    """The phone, signed in, on today's session, with the pages of the next days kept."""
    sign_in(phone, gym.client.user)
    open_session(phone, live_server, gym.planned)
    kept(phone)
    return phone


def test_whole_session_offline_from_a_cold_start_arrives_once_and_in_order(session, live_server, gym):
    context = session.context
    context.set_offline(True)
    page = cold_start(session)
    page.goto(f"{live_server.url}/train/")
    expect(page.locator("h1")).to_have_text("On this phone")
    expect(page.locator("[data-offline-words]")).to_be_visible()
    page.locator("[data-kept-sessions] a").first.tap()
    page.wait_for_selector("body[data-ready]")
    expect(page.locator("[data-kept-words]")).to_contain_text("Shown from this phone")
    expect(page.locator(HERE + ".target")).to_contain_text("Suggested: 42.5 kg × 9")
    typed = log_sets(page, [("40", "8"), ("42,5", "9"), ("45", "7")])
    page.locator("#finish summary").tap()
    page.locator("#finish .effort label", has_text="very hard").tap()
    page.fill("#finish-minutes", "35")
    page.locator("#finish button", has_text="Finish session").tap()
    expect(page.locator("#finish [data-sync]")).to_contain_text("Finished. It is on this phone only")
    expect(page.locator("#finish [data-summary] li")).to_have_text("Curl: first time")
    # A set can be mended afterwards, too.
    page.locator(HERE + "[data-edit]").last.tap()
    page.fill(HERE + "[name=reps]", "6")
    page.locator(HERE + "[data-log]").tap()
    typed[-1] = (45, 6)
    # Once more from the cold: everything that was logged is still to be seen.
    page = cold_start(page)
    page.goto(f"{live_server.url}/train/planned/{gym.planned.pk}/")
    page.wait_for_selector("body[data-ready]")
    expect(page.locator("[data-set]")).to_have_count(3)
    expect(page.locator("#delivery")).to_contain_text("6 entries are on this phone only.")
    expect(page.locator("#finish [data-summary] li")).to_have_text("Curl: first time")
    assert not SetLog.objects.exists()
    context.set_offline(False)
    page.evaluate("dispatchEvent(new Event('online'))")
    sent(page)
    assert values(standing()) == typed
    row = Session.objects.get()
    assert (row.session_rpe, row.minutes, row.planned_id) == (7, 35, gym.planned.pk)


def test_sessions_of_later_days_open_too(session, live_server, gym):
    session.context.set_offline(True)
    page = cold_start(session)
    page.goto(f"{live_server.url}/train/plan/")
    expect(page.locator("[data-kept-sessions] li")).to_have_count(2)
    page.goto(f"{live_server.url}/train/planned/{gym.later.pk}/")
    expect(page.locator("h1")).to_have_text("Day two")


def test_set_sent_after_the_page_was_kept_is_not_missing_on_the_kept_page(session, live_server, gym):
    log_sets(session, [("40", "8")])
    sent(session)
    session.context.set_offline(True)
    page = cold_start(session)
    page.goto(f"{live_server.url}/train/planned/{gym.planned.pk}/")
    page.wait_for_selector("body[data-ready]")
    expect(page.locator('[data-set][data-sync="saved"]')).to_have_count(1)
    expect(page.locator(HERE + "[data-set-title]")).to_have_text("Set 2 of 3")


def test_lapsed_sign_in_keeps_everything_and_sends_after_signing_in(session, live_server, gym, sign_in):
    context = session.context
    saved_cookies = [one for one in context.cookies() if one["name"] != "sessionid"]
    context.clear_cookies()
    context.add_cookies(saved_cookies)
    log_sets(session, [("40", "8"), ("40", "7")])
    expect(session.locator("#delivery")).to_contain_text("You are signed out. Sign in again; nothing is lost.")
    session.locator("#delivery a", has_text="Sign in").tap()
    session.fill("input[name=login]", gym.client.user.email)
    session.fill("input[name=password]", "correct horse battery")
    session.press("input[name=password]", "Enter")
    session.wait_for_selector("body[data-ready]")
    sent(session)
    assert values(standing()) == [(40, 8), (40, 7)]


def test_two_people_on_one_phone_never_see_or_send_each_others_entries(session, live_server, gym, sign_in):
    context = session.context
    context.set_offline(True)
    log_sets(session, [("40", "8")])
    expect(session.locator("#delivery")).to_contain_text("on this phone only")
    context.clear_cookies()  # the first one's sign-in lapsed: they did not even sign out
    context.set_offline(False)
    page = context.new_page()
    sign_in(page, gym.other_client.user)
    page.goto(f"{live_server.url}/train/phone/")
    page.wait_for_selector("body[data-ready]")
    expect(page.locator("[data-entries]")).to_be_hidden()
    expect(page.locator("[data-others]")).to_contain_text("entries of another person wait on this phone")
    expect(page.locator("[data-kept-sessions]")).not_to_contain_text("Day one")
    # The first one's page is still open in its tab: under the other's sign-in it sends nothing.
    session.evaluate("dispatchEvent(new Event('online'))")
    expect(session.locator("#delivery")).to_contain_text("You are signed out")
    assert not SetLog.objects.exists()
    # Without a connection the first one's pages are gone for the second.
    context.set_offline(True)
    page.goto(f"{live_server.url}/train/planned/{gym.planned.pk}/")
    expect(page.locator("h1")).to_have_text("On this phone")
    context.set_offline(False)
    session.close()
    sign_in_again(page, live_server, gym, sign_in)
    assert values(standing()) == [(40, 8)]
    assert SetLog.objects.get().client == gym.client


def sign_in_again(page, live_server, gym, sign_in):
    page.context.clear_cookies()
    sign_in(page, gym.client.user)
    page.goto(f"{live_server.url}/train/")
    page.wait_for_selector("body[data-kept]")
    sent(page)


def test_signing_out_takes_the_pages_along(session, live_server, gym):
    session.goto(f"{live_server.url}/account/logout/")
    session.locator("main form button").tap()
    session.wait_for_timeout(300)
    session.context.set_offline(True)
    page = cold_start(session)
    page.goto(f"{live_server.url}/train/planned/{gym.planned.pk}/")
    page.wait_for_selector("body[data-ready]")
    expect(page.locator("[data-nobody]")).to_be_visible()
    expect(page.locator("[data-kept-sessions] li")).to_have_count(0)


def test_two_tabs_log_into_one_session(session, live_server, gym):
    other = session.context.new_page()
    open_session(other, live_server, gym.planned)
    session.context.set_offline(True)
    log_sets(session, [("40", "8")])
    expect(other.locator("[data-set]")).to_have_count(1)
    log_sets(other, [("42", "7")])
    expect(session.locator("[data-set]")).to_have_count(2)
    session.context.set_offline(False)
    other.evaluate("dispatchEvent(new Event('online'))")
    sent(other)
    expect(session.locator('[data-set][data-sync="saved"]')).to_have_count(2)
    assert values(standing()) == [(40, 8), (42, 7)]
    assert [row.number for row in standing()] == [1, 2]


def test_entries_of_an_earlier_release_are_brought_over_and_sent(phone, live_server, sign_in, gym):
    """Before the database there was one list a person in localStorage."""
    sign_in(phone, gym.client.user)
    now = timezone.now().isoformat()
    session_id = "7d7d2f2e-9f5c-4a3e-8a3e-0d0d2f3e4a5b"
    set_data = {"set": "7d7d2f2e-9f5c-4a3e-8a3e-0d0d2f3e4a5c", "session": session_id, "exercise": gym.curl.pk}
    set_data |= {"number": 1, "load": 33, "unit": "kg", "reps": 9, "rir": 2, "side": "both", "warm_up": False}
    ops = [
        {"id": "7d7d2f2e-9f5c-4a3e-8a3e-0d0d2f3e4a51", "kind": "session.start", "data": {"session": session_id}},
        {"id": "7d7d2f2e-9f5c-4a3e-8a3e-0d0d2f3e4a52", "kind": "set.record", "data": set_data},
    ]
    key = f"sinewright.outbox.{gym.client.user.pk}"
    phone.evaluate(
        "([key, text]) => localStorage.setItem(key, text)",
        [key, json.dumps([{"op": one | {"at": now}, "refused": None} for one in ops])],
    )
    phone.goto(f"{live_server.url}/train/")
    phone.wait_for_selector("body[data-kept]")
    sent(phone)
    assert phone.evaluate("(key) => localStorage.getItem(key)", key) is None
    assert values(standing()) == [(33, 9)]


def test_new_release_with_a_new_schema_keeps_what_waits(session, live_server, gym, monkeypatch):
    """The page of the old release is still open, and goes on logging, when the new one brings its database along."""
    context = session.context
    context.route(faults.API, faults.cut)
    typed = log_sets(session, [("40", "8")])
    for place in ("logbook.phone_files", "logbook.reads.kept"):
        monkeypatch.setattr(f"{place}.release", lambda: "the-next-one")
    newer = context.new_page()
    newer.goto(f"{live_server.url}/train/phone/")
    newer.wait_for_selector("body[data-kept]")
    assert newer.evaluate(
        """async () => {
          const { openDatabase, STEPS } = await import("/static/logbook/offline/database.js");
          const db = await openDatabase([...STEPS, (db) => db.createObjectStore("of-the-next-release")]);
          const found = [db.version, db.objectStoreNames.contains("of-the-next-release"), await db.count("entries")];
          db.close();
          return found;
        }"""
    ) == [2, True, 2]
    typed += log_sets(session, [("42.5", "7")])
    expect(session.locator(HERE + "[data-set]").last).to_contain_text("on this phone only")
    newer.reload()
    newer.wait_for_selector("body[data-kept]")
    expect(newer.locator("[data-waiting] li")).to_have_count(3)
    context.unroute(faults.API)
    newer.locator("[data-send-now]").tap()
    sent(newer)
    assert values(standing()) == typed
    assert newer.evaluate("caches.keys()").count("files-the-next-one-en") == 1


def test_browser_sends_in_the_background_with_every_page_closed(session, live_server, gym):
    context = session.context
    context.set_offline(True)
    log_sets(session, [("40", "8")])
    expect(session.locator(HERE + "[data-set]")).to_contain_text("on this phone only")
    until(session, "navigator.serviceWorker.ready.then((one) => one.sync.getTags()).then((tags) => tags.length)")
    page = cold_start(session)
    context.set_offline(False)
    assert not SetLog.objects.exists()
    devtools = context.new_cdp_session(page)
    found = []
    devtools.on("ServiceWorker.workerRegistrationUpdated", lambda event: found.extend(event["registrations"]))
    devtools.send("ServiceWorker.enable")
    for _ in range(50):
        if found:
            break
        page.wait_for_timeout(50)
    ask = {"origin": live_server.url, "registrationId": found[0]["registrationId"], "tag": "sinewright-outbox"}
    devtools.send("ServiceWorker.dispatchSyncEvent", {**ask, "lastChance": False})
    for _ in range(100):
        if SetLog.objects.exists():
            break
        page.wait_for_timeout(50)
    assert values(standing()) == [(40, 8)]


def test_coach_changes_the_plan_meanwhile_and_the_client_is_told(session, live_server, gym):
    session.context.set_offline(True)
    log_sets(session, [("40", "8")])
    gym.planned.slots.filter(exercise=gym.curl).update(sets=2)
    gym.later.cancelled_at = timezone.now()
    gym.later.save()
    session.context.set_offline(False)
    session.evaluate("dispatchEvent(new Event('online'))")
    sent(session)
    session.reload()
    session.wait_for_selector("body[data-kept]")
    news = session.locator("[data-news]")
    expect(news).to_contain_text("Curl: 3 × 8–12 @ 1–2 RIR is now 2 × 8–12 @ 1–2 RIR")
    expect(session.locator("[data-set]")).to_have_count(1)
    session.goto(f"{live_server.url}/train/")
    session.wait_for_selector("body[data-kept]")
    expect(news).to_contain_text("no longer in your plan")
    news.locator("button").tap()
    session.reload()
    session.wait_for_selector("body[data-kept]")
    expect(news).to_be_hidden()


def test_refused_entry_is_shown_with_its_reason_can_be_exported_and_sent_again(session, live_server, gym):
    def refuse(route):
        operations = json.loads(route.request.post_data)["operations"]
        problem = {"status": 422, "code": "max_value", "title": "At most 8."}
        answers = [{"id": one["id"], "status": "refused", "problem": problem} for one in operations]
        route.fulfill(status=422, json={"results": answers})

    session.route("**/api/v1/operations/", refuse, times=1)
    log_sets(session, [("40", "9")])
    expect(session.locator("#delivery")).to_contain_text("2 entries were refused.")
    session.locator("#delivery a", has_text="See them").tap()
    session.wait_for_selector("body[data-ready]")
    expect(session.locator("[data-parked] li")).to_have_count(2)
    expect(session.locator("[data-parked] li").nth(1)).to_contain_text("Set: 40 kg × 9, RIR 1")
    expect(session.locator("[data-parked] li").nth(1)).to_contain_text("Refused: At most 8.")
    with session.expect_download() as download:
        session.locator("[data-export]").tap()
    exported = json.loads(download.value.path().read_text())
    assert [one["op"]["kind"] for one in exported["entries"]] == ["session.start", "set.record"]
    session.locator("[data-again]").first.tap()
    expect(session.locator("[data-parked] li")).to_have_count(1)
    session.locator("[data-again]").first.tap()
    expect(session.locator("[data-nothing]")).to_be_visible()
    assert values(standing()) == [(40, 9)]


def test_check_in_and_body_mass_need_no_connection(session, live_server, gym):
    context = session.context
    context.set_offline(True)
    page = cold_start(session)
    page.goto(f"{live_server.url}/train/")
    page.locator("[data-kept-check-in] a").tap()
    page.wait_for_selector("body[data-ready]")
    page.locator("main button", has_text="Save the check-in").tap()
    expect(page.locator("[data-said]")).to_have_text("Please answer all five.")
    for name in ("fatigue", "sleep", "soreness", "stress", "mood"):
        page.locator(f".choice:has([name={name}][value='4'])").tap()
    page.locator("main button", has_text="Save the check-in").tap()
    expect(page.locator("[data-check-in-form] [data-said]")).to_contain_text("on this phone only")
    page.fill("[name=mass]", "81,5")
    page.locator("[data-mass-form] button").tap()
    expect(page.locator("[data-mass-form] [data-said]")).to_contain_text("on this phone only")
    context.set_offline(False)
    page.evaluate("dispatchEvent(new Event('online'))")
    page.wait_for_url("**/train/")
    page.wait_for_selector("body[data-kept]")
    sent(page)
    assert CheckIn.objects.get().total == 20
    assert BodyMass.objects.get().mass == 81.5


def test_phone_without_a_service_worker_still_logs(open_page, live_server, sign_in, gym):
    page = open_page(**PHONE, service_workers="block")
    sign_in(page, gym.client.user)
    open_session(page, live_server, gym.planned)
    log_sets(page, [("40", "8")])
    sent(page)
    assert SetLog.objects.count() == 1
