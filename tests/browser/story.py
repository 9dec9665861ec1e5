"""The steps of the story, each as a person does it."""

import base64
import datetime as dt
import hashlib
import hmac
import re
import struct
import time
import zoneinfo

from playwright.sync_api import Locator, Page, expect

from tests.browser.stack import Stack

COACH = "coach@story.example"
CLIENT = "client@story.example"
PASSWORD = "a quiet morning lift"
BLOCK = "Arms and shoulders, two days"
DAYS = (
    (
        ("Dumbbell curl on an incline bench", "3 x 8-12 @ 1-2 RIR"),
        ("Overhead cable triceps extension", "3 x 8-12 @ 1-2 RIR"),
        ("Seated dumbbell overhead press", "3 x 8-12 @ 1-2 RIR"),
    ),
    (("Standing cable curl with a bar", "3-4 x 8-12 @ 1-2 RIR"), ("Cable pushdown", "3-4 x 8-12 @ 1-2 RIR")),
)


def one_time_code(secret: str) -> str:
    """Return the code that an authenticator shows now (RFC 6238, SHA-1, 30 s, six digits)."""
    counter = struct.pack(">Q", int(time.time()) // 30)
    digest = hmac.new(base64.b32decode(secret), counter, hashlib.sha1).digest()
    start = digest[-1] & 15
    return f"{(struct.unpack('>I', digest[start : start + 4])[0] & 0x7FFFFFFF) % 10**6:06}"


def sign_up_coach(desk: Page, stack: Stack) -> None:
    desk.goto(f"{stack.url}/account/signup/")
    desk.get_by_label("Your name").fill("Runa Storey")
    desk.locator("input[name=email]").fill(COACH)
    desk.locator("input[name=password1]").fill(PASSWORD)
    desk.get_by_label("Name of the practice").fill("Story Street Strength")
    desk.get_by_role("button", name="Open the practice").click()
    desk.wait_for_url("**/confirm-email/**")
    desk.goto(stack.link_mailed_to(COACH, "account/confirm-email"))
    desk.locator("main form button").first.click()
    desk.wait_for_load_state()
    if "/account/login" in desk.url:
        desk.fill("input[name=login]", COACH)
        desk.fill("input[name=password]", PASSWORD)
        desk.press("input[name=password]", "Enter")
    set_up_second_factor(desk)


def set_up_second_factor(desk: Page) -> None:
    """A coach who has none is sent there first, and is asked for the password once more."""
    if "reauthenticate" in desk.url:
        desk.fill("input[name=password]", PASSWORD)
        desk.press("input[name=password]", "Enter")
    secret = desk.locator("code.key").inner_text().replace(" ", "")
    desk.get_by_label(re.compile("code", re.I)).fill(one_time_code(secret))
    desk.get_by_role("button", name="Turn on").click()
    desk.wait_for_url(re.compile("recovery-codes"))


def invite_client(desk: Page, stack: Stack) -> str:
    desk.goto(f"{stack.url}/clients/invite/")
    desk.locator("input[name=email]").fill(CLIENT)
    desk.locator("input[name=name]").fill("Piet Lund")
    desk.get_by_role("button", name="Send the invitation").click()
    expect(desk.locator("#link")).to_be_visible()
    link = desk.locator("#link").input_value()
    assert stack.link_mailed_to(CLIENT, "invitations") == link
    return link


def accept_invitation(phone: Page, link: str) -> None:
    phone.goto(link)
    phone.locator("input[type=password]").first.fill(PASSWORD)
    phone.get_by_role("button", name="Accept and make an account").click()
    phone.wait_for_url("**/train/")


def write_block(desk: Page, stack: Stack) -> None:
    desk.goto(f"{stack.url}/programs/add/")
    desk.locator("#id_name").fill(BLOCK)
    desk.locator("#id_days").fill("2")
    desk.locator("main form button[type=submit]").first.click()
    expect(desk.locator(".day")).to_have_count(2)
    for number, slots in enumerate(DAYS):
        for exercise, prescription in slots:
            add_exercise(desk, number, exercise)
            day = desk.locator(".day").nth(number)
            field = day.locator("input[name=text]").last
            field.fill(prescription)
            field.press("Enter")
            expect(desk.locator("#editor-status")).to_contain_text("Saved")
    second = desk.locator(".day").nth(1)
    expect(second.locator("input[name=text]").last).to_have_value(re.compile("3–4 × 8–12 @ 1–2 RIR"))


def add_exercise(desk: Page, day: int, name: str) -> None:
    column = desk.locator(".day").nth(day)
    there = column.locator(".slot").count()
    search = column.get_by_role("combobox")
    search.fill(name)
    desk.get_by_role("option", name=name).first.click()
    expect(desk.locator(".day").nth(day).locator(".slot")).to_have_count(there + 1)


def copy_week(desk: Page) -> None:
    """Make the block two weeks long, so that something is left to change after the first session."""
    desk.get_by_role("button", name="Copy this week").click()
    expect(desk.get_by_role("link", name=re.compile("Week 2"))).to_be_visible()


def assign_block(desk: Page) -> None:
    """Give the block to the client from today on, the second day two days later."""
    today = dt.datetime.now(desk_zone(desk)).date()
    desk.get_by_role("link", name="Assign to clients").click()
    desk.get_by_label(re.compile("Piet Lund")).check()
    desk.get_by_label("First day").fill(today.isoformat())
    for number, weekday in enumerate((today.weekday(), (today.weekday() + 2) % 7)):
        desk.locator(f"[name=weekday_{number}]").select_option(str(weekday))
    desk.get_by_role("button", name="Fit to each client").click()
    as_written(desk)
    desk.get_by_role("button", name=re.compile("^Assign")).click()
    expect(desk.locator("main")).to_contain_text("1 client has this program now.")


def as_written(desk: Page) -> None:
    """Decline what fitting proposes for a novice who is new here: the story counts the sets as they were written."""
    row = desk.locator("tbody tr", has_text="Piet Lund")
    expect(row).to_contain_text("First time with 2 more repetitions in reserve")
    row.get_by_role("link", name=re.compile("^Choose otherwise")).click()
    expect(desk.get_by_role("button", name="Keep these choices")).to_be_visible()
    for tick in desk.locator("tbody tr", has_text="Piet Lund").get_by_label("do it").all():
        tick.uncheck()
    desk.get_by_role("button", name="Keep these choices").click()
    expect(desk.locator("tbody tr", has_text="Piet Lund")).to_contain_text("changed by you")


def desk_zone(desk: Page) -> zoneinfo.ZoneInfo:
    """Return the browser's own time zone, which sign-up proposed."""
    return zoneinfo.ZoneInfo(desk.evaluate("Intl.DateTimeFormat().resolvedOptions().timeZone"))


def sets_ahead(phone: Page, stack: Stack) -> int:
    """Add up the sets that the phone's plan shows as still to come, this week and the two after."""
    total = 0
    phone.goto(f"{stack.url}/train/plan/")
    for _ in range(3):
        for day in phone.locator("main section").all():
            if not day.get_by_text("done", exact=False).count():
                total += sum(int(sets) for sets in re.findall(r"(?:\d–)?(\d+) × \d", day.inner_text()))
        phone.get_by_role("link", name="Week after").click()
    return total


def answer_screening(phone: Page, stack: Stack) -> None:
    """Answer no to every question about health; before that no session begins."""
    phone.goto(f"{stack.url}/train/screening/")
    for answer in phone.locator(".yes-no label", has_text=re.compile(r"^\s*no\s*$", re.IGNORECASE)).all():
        answer.tap()
    phone.get_by_role("button", name="Save the answers").tap()
    expect(phone.locator("[data-state=ok]")).to_have_text("answered")


def log_first_day(phone: Page, stack: Stack) -> None:
    """Log three sets of each exercise, report pain, finish."""
    answer_screening(phone, stack)
    phone.goto(f"{stack.url}/train/")
    phone.get_by_role("link", name="Open the session").tap()
    for number, (exercise, _) in enumerate(DAYS[0]):
        current = phone.locator("section.exercise:visible")
        expect(current).to_contain_text(exercise)
        current.locator("[name=load]").fill(str(8 + 2 * number))
        current.locator("[name=reps]").fill("10")
        current.locator(".rir-grid label").nth(2).tap()
        for done in range(1, 4):
            current.locator("[data-log]").tap()
            expect(current.locator("li.set .sync", has_text="saved")).to_have_count(done)
            phone.wait_for_timeout(300)  # a second tap at once is one and the same
        phone.locator("section.exercise:visible [data-go]").first.tap()
    report_pain(phone)
    finish_session(phone)


def report_pain(phone: Page) -> None:
    phone.locator("#pain summary").tap()
    phone.locator("#pain label", has_text=re.compile(r"^6$")).tap()
    phone.locator("#pain-site").select_option("elbow")
    phone.get_by_role("button", name="Send the pain report").tap()
    expect(phone.get_by_text("stop this exercise").first).to_be_visible()


def finish_session(phone: Page) -> None:
    finish = phone.locator("#finish")
    if finish.get_attribute("open") is None:
        finish.locator("summary").tap()
    finish.locator("label", has_text=re.compile("^7")).tap()
    finish.get_by_role("button", name="Finish session").tap()
    phone.wait_for_url("**/train/done/**")


def board_row(desk: Page, stack: Stack, text: re.Pattern[str]) -> Locator:
    """Return the client's row once the board shows `text` in it; the worker may take a moment."""
    row = desk.locator("tr", has_text="Piet Lund")
    for _ in range(40):
        desk.goto(f"{stack.url}/week/")
        if row.get_by_text(text).count():
            break
        desk.wait_for_timeout(250)
    return row


def accept_prompt(desk: Page, stack: Stack) -> None:
    desk.locator("tr", has_text="Piet Lund").get_by_role("link", name="Piet Lund").click()
    desk.get_by_role("button", name="Accept and change the plan").click()
    expect(desk.locator("main")).to_contain_text("accepted")
