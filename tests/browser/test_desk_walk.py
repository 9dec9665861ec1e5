"""A coach's whole walk: a drafted week is edited, fitted to two clients, revised once one trained; phones follow."""

import datetime as dt
import re

import pytest
from allauth.account.models import EmailAddress
from playwright.sync_api import expect

from accounts.models import Client
from programs.models import Adaptation, ClientLimit, Exercise, PlannedSession, PlannedSlot, Program
from tests.browser.conftest import PHONE
from tests.conftest import make_client, make_world
from tests.programs.factories import make_library

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

HERE = ".exercise:not([hidden]) "
# As edited before anybody has it, as revised after Clemens trained, and both as the phone shows them.
EDITED, REVISED, SHOWN = "4 × 8–12", "5 x 6-8 @ 1 RIR", "5 × 6–8"


@pytest.fixture
def world(transactional_db):
    """Two clients of the coach, Clemens and Celia."""
    people = make_world()
    people.second = make_client(people.practice, "celia", people.coach_membership)
    Client.objects.update(training_status="intermediate")
    for user in (people.coach, people.client.user, people.second.user):
        EmailAddress.objects.get_or_create(user=user, defaults={"email": user.email, "verified": True, "primary": True})
    people.library = make_library()
    return people


@pytest.fixture
def coach(desk, live_server, sign_in, world):
    sign_in(desk, world.coach)
    desk.base = live_server.url
    return desk


def draft(desk) -> Program:
    """Ask for two days of biceps and triceps, and take the week as a program."""
    desk.goto(f"{desk.base}/programs/drafts/new/")
    for day, minutes in (("Monday", "45"), ("Wednesday", ""), ("Friday", "45")):
        desk.get_by_label(day).fill(minutes)
    desk.get_by_label("Priority of lats").select_option("out")
    for group in ("biceps", "triceps"):
        desk.get_by_label(f"At least, {group}").fill("6")
        desk.get_by_label(f"At most, {group}").fill("8")
    desk.get_by_label("Sets of a muscle group on one day, at most").fill("4")
    desk.locator(".save").get_by_role("button", name="Draft the week").click()
    desk.get_by_role("button", name="Make it a program").click()
    desk.wait_for_url(re.compile(r"/programs/\d+/"))
    return Program.objects.get()


def write(desk, version: int, *lines: str) -> None:
    """Write the first lines of the shown week's days, which end in this version."""
    for number, text in enumerate(lines):
        line = desk.locator(".day").nth(number).locator(".slot .line").first
        line.fill(text)
        line.press("Enter")
    expect(desk.locator("#editor-status")).to_contain_text(re.compile(rf"version {version}\b"))


def fit_and_assign(desk, program: Program, world) -> Exercise:
    """Both begin today. Celia keeps from one exercise, whose substitute the coach leaves out."""
    drafted = {slot["exercise"] for slot in slots(program)}
    # Two presses of the little library train the same: one can stand in for the other.
    first = Exercise.objects.get(pk=min(drafted & {world.library.press.pk, world.library.push.pk}))
    ClientLimit.objects.create(client=world.second, exercise=first, since=dt.date(2026, 1, 1), told_by=world.coach)
    today = world.client.user.today()
    desk.get_by_role("link", name="Assign to clients").click()
    for name in ("Clemens", "Celia"):
        desk.get_by_label(name).check()
    desk.get_by_label("First day").fill(today.isoformat())
    for number, weekday in enumerate((today.weekday(), (today.weekday() + 3) % 7)):
        desk.locator(f"[name=weekday_{number}]").select_option(str(weekday))
    desk.get_by_role("button", name="Fit to each client").click()
    row = desk.locator("tbody tr", has_text="Celia")
    expect(row).to_contain_text(f"instead of {first.name}")
    row.get_by_role("link", name="Choose otherwise").click()
    choices = desk.get_by_role("form", name="Choices for Celia")
    choices.get_by_role("combobox").first.select_option(label="leave it out")
    # Not so careful a beginning: what the coach declines is not done.
    careful = choices.locator("[name*='accept-careful']")
    if careful.count():
        careful.first.uncheck()
    choices.get_by_role("button", name="Keep these choices").click()
    expect(row).to_contain_text("changed by you")
    desk.get_by_role("button", name="Assign to 2 clients").click()
    expect(desk.locator("main")).to_contain_text("2 clients have this program now.")
    return first


def look_at(phone, live_server, planned: PlannedSession) -> None:
    phone.goto(f"{live_server.url}/train/planned/{planned.pk}/")
    phone.wait_for_selector("body[data-ready]")


def slots(program: Program, week: int = 0, day: int = 0) -> list[dict]:
    program.refresh_from_db()
    return program.document["blocks"][0]["weeks"][week]["days"][day]["slots"]


# Drafts, two phones and a desk: a few seconds by itself, minutes where the machine is shared.
@pytest.mark.timeout(300)
def test_a_drafted_week_reaches_the_phones_and_a_revision_only_what_is_not_logged(
    coach, open_page, live_server, sign_in, world
):
    program = draft(coach)
    write(coach, 3, "4 x 8-12 @ 1-2 RIR", "4 x 8-12 @ 1-2 RIR")
    coach.get_by_role("button", name="Copy this week").click()
    expect(coach.locator("#editor-status")).to_contain_text(re.compile(r"version 4\b"))
    left_out = fit_and_assign(coach, program, world)
    assert Adaptation.objects.filter(client=world.second, edited=True).exists()

    # Clemens trains today.
    phones = {}
    for client in (world.client, world.second):
        phones[client.pk] = open_page(**PHONE)
        sign_in(phones[client.pk], client.user)
    phone = phones[world.client.pk]
    mine, theirs = (
        list(PlannedSession.objects.filter(client=c).order_by("date")) for c in (world.client, world.second)
    )
    look_at(phone, live_server, mine[0])
    phone.locator(HERE + "[data-log]").tap()
    expect(phone.locator(HERE + '[data-set][data-sync="saved"]')).to_have_count(1)

    # The first week is revised, and brought to both.
    coach.goto(f"{coach.base}/programs/{program.pk}/")
    write(coach, 6, REVISED, REVISED)
    coach.locator("#editor-followed").get_by_role("link").click()
    expect(coach.get_by_role("listitem", name="Clemens")).to_contain_text("Left alone:")
    coach.get_by_role("button", name="Bring to the ticked clients").click()
    expect(coach.get_by_text("2 clients follow version 6 now.")).to_be_visible()

    # What is logged stays as it was done; all else of that week is as revised, with what was fitted still fitted.
    for client, plan, said in (
        (world.client, mine, [EDITED, SHOWN, EDITED]),
        (world.second, theirs, [SHOWN, SHOWN, EDITED]),
    ):
        for planned, line in zip(plan, said, strict=False):
            look_at(phones[client.pk], live_server, planned)
            expect(phones[client.pk].locator("main")).to_contain_text(line)
        names = set(PlannedSlot.objects.filter(session__in=plan).values_list("exercise__name", flat=True))
        assert (left_out.name in names) == (client == world.client)
