"""A session logged on a phone: 390 x 844, touch, real Chromium, the real server."""

import datetime as dt
import json
import re
from functools import partial

import pytest
from allauth.account.models import EmailAddress
from django.utils import timezone
from playwright.sync_api import expect

from logbook.models import PainReport, Session, SetHistory, SetLog, SlotSkip
from logbook.services.operations import operation_apply
from tests.logbook.factories import make_exercise, make_planned, op, set_data

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

API = "**/api/v1/operations/"
HERE = ".exercise:not([hidden]) "


@pytest.fixture
def gym(world):
    """Bar curl (with a target), row one side at a time, press on a stack; today's plan holds the first two."""
    user = world.client.user
    EmailAddress.objects.create(user=user, email=user.email, verified=True, primary=True)
    world.today = timezone.now().date()
    world.curl = make_exercise("curl", "barbell")
    world.row = make_exercise("one-arm-row", "dumbbell", laterality="single")
    world.press = make_exercise("press", "stack")
    reason = {"action": "reps_up", "code": "add_reps", "params": {"reps": 9}}
    target = {"target_load_kg": 42.5, "target_reps": 9, "target_reason": reason}
    world.planned = make_planned(
        world.client, world.today, {"exercise": world.curl, "sets": 2, **target}, {"exercise": world.row, "sets": 1}
    )
    return world


@pytest.fixture
def session(phone, live_server, sign_in, gym):
    """The phone, signed in, on today's session."""
    sign_in(phone, gym.client.user)
    open_session(phone, live_server, gym.planned)
    return phone


def open_session(page, live_server, planned):
    page.goto(f"{live_server.url}/train/planned/{planned.pk}/")
    page.wait_for_selector("body[data-ready]")


def log_button(page):
    return page.locator(HERE + "[data-log]")


def rows(page):
    return page.locator(HERE + "[data-rows] [data-set]")


def saved(page, count):
    """Wait until that many sets of the shown exercise are saved."""
    expect(page.locator(HERE + '[data-set][data-sync="saved"]')).to_have_count(count)


def until(page, condition):
    """Wait for a condition of the page's script; Playwright's own way is refused by the content security policy."""
    for _ in range(100):
        if page.evaluate(condition):
            return
        page.wait_for_timeout(50)
    pytest.fail(f"never came true: {condition}")


def standing():
    return list(SetLog.objects.filter(deleted_at=None).order_by("performed_at"))


def test_button_says_what_one_tap_logs_as_prescribed(session):
    expect(session.locator(HERE + ".target")).to_contain_text("Suggested: 42.5 kg × 9. All sets done")
    expect(session.locator(HERE + "[data-plates]")).to_have_text("Each side: 10 + 1.25 kg")
    expect(log_button(session)).to_have_text("Log 42.5 kg × 9, RIR 1")
    log_button(session).tap()
    saved(session, 1)
    expect(rows(session).first).to_contain_text("42.5 kg × 9, RIR 1")
    row = SetLog.objects.get()
    assert (row.load, row.unit, row.reps, row.rir, row.number) == (42.5, "kg", 9, 1, 1)
    assert Session.objects.get().date == timezone.now().date()
    expect(session.locator(HERE + "[data-rest]").first).to_contain_text(re.compile(r"Rest 1:\d\d of 1:30"))


def test_six_exercises_of_three_sets_take_at_most_28_taps(phone, live_server, sign_in, gym):
    exercises = [make_exercise(f"lift-{n}", "dumbbell") for n in range(6)]
    week_ago = timezone.now() - dt.timedelta(days=7)
    operations = [op("session.start", week_ago, session="0d9f4f5e-3c1b-4f0a-9d0e-1f2a3b4c5d6e")]
    for exercise in exercises:
        data = set_data("0d9f4f5e-3c1b-4f0a-9d0e-1f2a3b4c5d6e", exercise, load=20)
        operations.append(op("set.record", week_ago, **data))
    for operation in operations:
        operation_apply(client=gym.client, operation=operation, now=timezone.now())
    slots = [{"exercise": e, "pair": pair} for e, pair in zip(exercises, ("", "", "A1", "A2", "", ""), strict=True)]
    planned = make_planned(gym.client, gym.today, *slots)
    sign_in(phone, gym.client.user)
    open_session(phone, live_server, planned)
    taps = {"sets": 0, "moves": 0, "finish": 0}
    for _ in range(40):
        go_on = phone.locator(HERE + "[data-finished] [data-go]")
        if not go_on.is_visible():
            log_button(phone).tap()
            taps["sets"] += 1
            phone.wait_for_timeout(300)  # a second tap at once is one and the same
        elif go_on.get_attribute("data-go") != "finish":
            go_on.tap()
            taps["moves"] += 1
        else:
            break
    go_on.tap()
    phone.locator("#finish .effort label", has_text="very hard").tap()
    phone.locator("#finish button", has_text="Finish session").tap()
    taps["finish"] += 3
    phone.wait_for_url("**/train/done/**")
    assert taps == {"sets": 18, "moves": 4, "finish": 3}
    today = SetLog.objects.filter(session__planned=planned)
    assert today.count() == 18
    assert [row.slot.pair for row in today.order_by("performed_at")[6:12]] == ["A1", "A2"] * 3
    assert Session.objects.get(planned=planned).session_rpe == 7
    assert Session.objects.get(planned=planned).minutes >= 5


def test_sides_pounds_edit_delete_skip_pain_and_finish(session):
    page = session
    # Pounds for one set: the switch converts, typing is possible, a comma is a decimal sign.
    page.locator(HERE + ".units label", has_text="lb").tap()
    expect(page.locator(HERE + "[name=load]")).to_have_value("93.7")
    page.fill(HERE + "[name=load]", "95,5")
    page.locator(HERE + ".rir label", has_text="3").tap()
    expect(log_button(page)).to_have_text("Log 95.5 lb × 9, RIR 3")
    log_button(page).tap()
    saved(page, 1)
    # The next set is filled in from the one before, in its unit; the steppers follow the equipment.
    expect(page.locator(HERE + "[name=load]")).to_have_value("95.5")
    page.locator(HERE + ".units label", has_text="kg").tap()
    page.locator(HERE + "[data-quantity=load] [data-step='1']").tap()
    expect(page.locator(HERE + "[name=load]")).to_have_value("45")
    page.locator(HERE + "[data-quantity=reps] [data-step='-1']").tap()
    page.locator(HERE + ".rir label", has_text="don't know").tap()
    log_button(page).tap()
    saved(page, 2)
    # Edit the first, delete the second, bring it back.
    rows(page).nth(0).locator("[data-edit]").tap()
    page.fill(HERE + "[name=reps]", "7")
    expect(log_button(page)).to_have_text("Save 95.5 lb × 7, RIR 3")
    log_button(page).tap()
    expect(rows(page).nth(0)).to_contain_text("before: 95.5 lb × 9, RIR 3")
    rows(page).nth(1).locator("[data-edit]").tap()
    page.locator(HERE + "[data-delete]").tap()
    expect(rows(page).nth(1)).to_contain_text("deleted")
    rows(page).nth(1).locator("[data-edit]").tap()
    log_button(page).tap()
    saved(page, 2)
    first, second = standing()
    assert (first.load, first.unit, first.reps, first.rir) == (95.5, "lb", 7, 3)
    assert (second.load, second.unit, second.reps, second.rir) == (45, "kg", 8, None)
    assert SetHistory.objects.count() == 3
    # One side, then the other.
    page.locator(HERE + "[data-finished] [data-go]").tap()
    expect(page.locator(HERE + "[data-set-title]")).to_have_text("Set 1 of 1, left")
    expect(log_button(page)).to_have_text("Log")
    page.fill(HERE + "[name=load]", "18")
    log_button(page).tap()
    expect(page.locator(HERE + "[data-set-title]")).to_have_text("Set 1 of 1, right")
    page.fill(HERE + "[name=reps]", "7")
    log_button(page).tap()
    saved(page, 2)
    expect(page.locator(HERE + "[data-sides]")).to_have_text("Between the sides: right 1 repetition less")
    assert [row.side for row in standing()[2:]] == ["left", "right"]
    # Pain over five: the caution does not wait.
    page.locator("#pain summary").tap()
    page.locator("#pain .eleven label", has_text="6").tap()
    page.locator("#pain button", has_text="Send").tap()
    expect(page.locator(HERE + "[data-pain]")).to_be_visible()
    page.locator(HERE + "[data-finished] [data-go]").tap()
    page.locator("#finish .effort label", has_text="somewhat hard").tap()
    page.fill("#finish-minutes", "55")
    page.fill("#finish-note", "windy")
    page.locator("#finish button", has_text="Finish session").tap()
    page.wait_for_url("**/train/done/**")
    expect(page.locator("main")).to_contain_text("Pain 6 of 10")
    row = Session.objects.get()
    assert (row.session_rpe, row.minutes, row.note) == (4, 55, "windy")
    assert PainReport.objects.get().score == 6


def test_skip_and_warm_up(session, gym):
    session.locator(HERE + ".tick").tap()
    session.fill(HERE + "[name=load]", "20")
    expect(session.locator(HERE + "[data-set-title]")).to_have_text("Warm-up set 1")
    log_button(session).tap()
    saved(session, 1)
    expect(session.locator(HERE + "[data-set-title]")).to_have_text("Set 1 of 2")
    session.locator("#skip summary").tap()
    session.locator("#skip button").tap()
    expect(session.locator(HERE + "[data-finished-words]")).to_have_text("Skipped.")
    expect(session.locator("[data-list] .state").first).to_have_text("skipped")
    until(session, "!sinewright.app.store.waiting().length")
    assert SetLog.objects.get().warm_up is True
    assert SlotSkip.objects.get().skipped is True


def test_warm_up_set_of_the_working_load_takes_two_taps(session):
    offered = session.locator(HERE + "[data-warm-up-list] button")
    expect(offered).to_have_text(["25 kg × 5", "32.5 kg × 3"])
    offered.first.tap()
    expect(session.locator(HERE + "[data-set-title]")).to_have_text("Warm-up set 1")
    log_button(session).tap()
    saved(session, 1)
    expect(offered).to_have_text(["32.5 kg × 3"])
    expect(log_button(session)).to_have_text("Log 42.5 kg × 9, RIR 1")
    row = SetLog.objects.get()
    assert (row.warm_up, row.load, row.reps, row.rir) == (True, 25, 5, None)


def test_bad_load_is_refused_beside_the_field_and_stays(session):
    wrong = {
        "abc": "This must be a number.",
        "": "Type the load first.",
        "-5": "A load is 0 or more.",
        "1000,5": "Over 1000 kg",
    }
    for load, says in wrong.items():
        session.fill(HERE + "[name=load]", load)
        log_button(session).tap()
        expect(session.locator(HERE + "[data-wrong=load]")).to_contain_text(says)
        expect(session.locator(HERE + "[name=load]")).to_have_value(load)
        expect(session.locator(HERE + "[name=load]")).to_be_focused()
    assert rows(session).count() == 0


def test_very_high_load_is_asked_for_once_more(session):
    session.fill(HERE + "[name=load]", "1000")
    log_button(session).tap()
    expect(session.locator(HERE + "[data-wrong=load]")).to_contain_text("Really? Over 600 kg")
    session.locator(HERE + "[data-confirm]").tap()
    log_button(session).tap()
    saved(session, 1)
    assert SetLog.objects.get().load == 1000


def test_a_thousand_pounds_are_asked_about_too(session):
    session.locator(HERE + "label.small-choice", has_text="lb").tap()
    session.fill(HERE + "[name=load]", "1000")
    log_button(session).tap()
    expect(session.locator(HERE + "[data-wrong=load]")).to_contain_text("Really? 1000 lb")
    assert rows(session).count() == 0


def test_half_typed_set_survives_a_look_at_another_exercise_and_a_reload(session, gym):
    session.fill(HERE + "[name=load]", "37,")
    session.locator("[data-list] a").nth(1).tap()
    expect(session.locator(HERE + "h2")).to_contain_text("One arm row")
    session.locator("[data-list] a").nth(0).tap()
    expect(session.locator(HERE + "[name=load]")).to_have_value("37,")
    session.reload()
    session.wait_for_selector("body[data-ready]")
    expect(session.locator(HERE + "[name=load]")).to_have_value("37,")
    session.fill(HERE + "[name=load]", "37,5")
    log_button(session).tap()
    saved(session, 1)
    expect(rows(session).first).to_contain_text("37.5 kg × 9")


def test_double_tap_and_taps_before_the_script_is_there_log_one_set_each(phone, live_server, sign_in, gym):
    gym.planned.slots.update(sets=5)
    sign_in(phone, gym.client.user)
    held = []
    phone.route("**/logbook/session.js", lambda route: held.append(route))
    phone.goto(f"{live_server.url}/train/planned/{gym.planned.pk}/", wait_until="commit")
    log_button(phone).tap()
    log_button(phone).tap()
    assert not SetLog.objects.exists()
    held[0].continue_()
    saved(phone, 1)
    phone.wait_for_timeout(300)
    log_button(phone).dblclick()
    saved(phone, 2)
    phone.wait_for_timeout(400)
    assert SetLog.objects.count() == 2


def test_no_connection_keeps_the_set_and_a_reload_sends_it_once(session):
    session.context.set_offline(True)
    log_button(session).tap()
    expect(rows(session).first).to_contain_text("on this phone only: no connection")
    expect(session.locator("#delivery")).to_contain_text("on this phone only")
    assert not SetLog.objects.exists()
    session.context.set_offline(False)
    session.reload()
    saved(session, 1)
    assert SetLog.objects.get().load == 42.5


def test_lost_answer_does_not_double_the_set(session):
    def cut(route):
        route.fetch()  # the server saves it
        route.abort()  # and the answer is lost

    session.route(API, cut, times=1)
    log_button(session).tap()
    expect(rows(session).first).to_contain_text("on this phone only")
    session.evaluate("dispatchEvent(new Event('online'))")
    saved(session, 1)
    assert SetLog.objects.count() == 1


def answer(status, route):
    route.fulfill(status=status, body="{}")


def test_server_that_cannot_take_it_keeps_it_on_the_phone(session):
    answers = ((401, "sign in again"), (403, "sign in again"), (429, "trying again"), (500, "trying again"))
    for number, (status, says) in enumerate(answers, 1):
        session.route(API, partial(answer, status))  # the phone asks again by itself: until it was looked at, each time
        if number > 2:  # the exercise is done: a further set has to be asked for
            session.locator(HERE + "[data-set-entry] > summary").tap()
        log_button(session).tap()
        expect(rows(session).nth(number - 1)).to_contain_text(says)
        assert session.evaluate("sinewright.app.store.waiting().at(-1).kind") == "set.record"
        session.unroute(API)
        session.evaluate("dispatchEvent(new Event('online'))")
        saved(session, number)
        session.wait_for_timeout(300)  # a second tap at once is one and the same
    assert SetLog.objects.count() == len(answers)


def test_refused_set_stays_with_its_reason_and_can_be_mended(session):
    def refuse(route):
        operations = json.loads(route.request.post_data)["operations"]
        problem = {"status": 422, "code": "max_value", "title": "No.", "errors": {"reps": ["At most 8."]}}
        answers = [{"id": one["id"], "status": "refused", "problem": problem} for one in operations[1:]]
        reply = route.fetch(post_data={"operations": operations[:1]}).json()["results"]
        route.fulfill(status=207, json={"results": reply + answers})

    session.route(API, refuse, times=1)
    log_button(session).tap()
    expect(rows(session).first).to_contain_text("not saved: At most 8.")
    expect(rows(session).first).to_contain_text("42.5 kg × 9")
    rows(session).first.locator("[data-edit]").tap()
    session.fill(HERE + "[name=reps]", "8")
    log_button(session).tap()
    saved(session, 1)
    assert SetLog.objects.get().reps == 8


def test_page_works_by_keyboard(session):
    session.locator(HERE + "[name=load]").focus()
    session.keyboard.press("ControlOrMeta+a")
    session.keyboard.type("44")
    session.keyboard.press("Enter")
    saved(session, 1)
    assert SetLog.objects.get().load == 44
    session.locator(HERE + "[data-edit]").first.focus()
    session.keyboard.press("Enter")
    expect(session.locator(HERE + "[data-set-title]")).to_have_text("Edit set 1")
    expect(session.locator(HERE + "[name=load]")).to_be_focused()


SMALL = """() => [...document.querySelectorAll(`main button, main summary, main .choice, main .set .edit,
  main [data-go], main input:not([type=hidden], [type=radio], [type=checkbox]), main select, .slim a`)]
  .filter((one) => one.offsetParent && one.getBoundingClientRect().height < 47.5)
  .map((one) => one.outerHTML.slice(0, 120))"""
WIDE = "() => document.documentElement.scrollWidth > document.documentElement.clientWidth"


def test_targets_are_large_and_text_at_200_percent_does_not_break(session):
    log_button(session).tap()
    saved(session, 1)
    for fold in ("#pain", "#note", "#finish"):
        session.locator(f"{fold} summary").tap()
    assert session.evaluate(SMALL) == []
    assert session.evaluate(WIDE) is False
    session.evaluate("document.documentElement.style.fontSize = '200%'")
    assert session.evaluate(WIDE) is False


def test_axe_finds_nothing_on_the_phones_pages(session, live_server, gym):
    from axe_playwright_python.sync_playwright import Axe

    log_button(session).tap()
    saved(session, 1)
    row = SetLog.objects.get()
    found = {}
    ids = f"set/{row.pk}/", f"session/{row.session_id}/", f"done/{row.session_id}/"
    pages = ("", "plan/", "done/", "check-in/", *ids)
    for path in pages:
        session.goto(f"{live_server.url}/train/{path}")
        for fold in session.locator("details:not([open]) > summary").all():
            if fold.is_visible():
                fold.evaluate("(summary) => { summary.parentElement.open = true; }")
        found[path] = [one["id"] for one in Axe().run(session).response["violations"]]
    assert found == {path: [] for path in pages}
