"""Writing a program in a real browser: by keyboard only, by drag, in two windows, and while the server is away."""

import re

import pytest
from allauth.account.models import EmailAddress
from playwright.sync_api import Page, expect

from programs.models import Program
from programs.services.program_write import program_create
from tests.conftest import make_world
from tests.programs.factories import document, make_library, slot

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def library(transactional_db):
    return make_library()


@pytest.fixture
def world(transactional_db):
    people = make_world()
    for user in (people.coach, people.owner):
        known = {"email": user.email, "verified": True, "primary": True}
        EmailAddress.objects.get_or_create(user=user, defaults=known)
    return people


@pytest.fixture
def program(world, library):
    content = document([slot("s1", library.curl.pk), slot("s2", library.press.pk)], [slot("s3", library.row.pk)])
    return program_create(practice=world.practice, author=world.coach, name="Arms", document=content, weekdays=[0, 3])


@pytest.fixture
def editor(desk, live_server, sign_in, world, program):
    sign_in(desk, world.coach)
    desk.goto(f"{live_server.url}/programs/{program.pk}/")
    return desk


def saved(page: Page, version: int) -> None:
    """Wait until the page says that this version is saved."""
    expect(page.locator("#editor-status")).to_contain_text(re.compile(rf"version {version}\b"))


def days(program: Program) -> list[list[str]]:
    """Return what is written: for each day, "name: prescription" by slot, with the pair's letter before it."""
    program.refresh_from_db()
    from programs.document import document_from_json, labels, written
    from programs.models import Exercise

    names = dict(Exercise.objects.values_list("pk", "name"))
    week = document_from_json(program.document).blocks[0].weeks[0]
    return [
        [
            f"{mark} {names[one.exercise]}: {written(one)}".strip()
            for one, mark in zip(day.slots, labels(day.slots), strict=True)
        ]
        for day in week.days
    ]


def test_a_two_day_block_is_written_by_keyboard_only(desk, live_server, sign_in, world, library):
    sign_in(desk, world.coach)
    desk.goto(f"{live_server.url}/programs/add/")
    keys = desk.keyboard

    def tab_to(target: str, key: str = "Tab") -> None:
        """Press Tab until the field with that id has the cursor."""
        for _ in range(80):
            if desk.evaluate("document.activeElement.id") == target:
                return
            keys.press(key)
        raise AssertionError(f"{target} cannot be reached with {key}")

    tab_to("id_name")
    keys.type("Two days")
    for _ in range(3):  # note, written for, days
        keys.press("Tab")
    keys.press("Control+a")
    keys.type("2")
    keys.press("Enter")
    expect(desk.locator(".day")).to_have_count(2)

    def go_to_day(number: int) -> None:
        tab_to(desk.locator(".day").nth(number).locator("[data-find^='day=']").get_attribute("id"))

    def add(words: str, prescription: str, version: int) -> None:
        keys.type(words)
        keys.press("Enter")
        saved(desk, version)
        expect(desk.locator(".line:focus")).to_have_count(1)
        keys.type(prescription)  # the old one is selected, so that typing replaces it
        keys.press("Enter")
        saved(desk, version + 1)
        expect(desk.locator(".find:focus")).to_have_count(1)

    go_to_day(0)
    add("wand cu", "3-4 x 8-12 @ 1-2 RIR", 2)
    add("press-down", "4x6 @ 1", 4)
    go_to_day(1)
    add("slow", "8 to 12 reps at 2 RIR for 5 sets", 6)
    program = Program.objects.get()
    assert days(program) == [
        ["Wand curl: 3–4 × 8–12 @ 1–2 RIR", "Overhead wand press-down: 4 × 6 @ 1 RIR"],
        ["Slow row: 5 × 8–12 @ 2 RIR"],
    ]
    # Move the second exercise up, then to the other day, then take both back.
    tab_to(desk.locator(".line").nth(1).get_attribute("id"), "Shift+Tab")
    keys.press("Alt+ArrowUp")
    saved(desk, 8)
    assert days(program)[0][0].startswith("Overhead")
    keys.press("Alt+ArrowRight")
    saved(desk, 9)
    assert [len(day) for day in days(program)] == [1, 2]
    tab_to("add-day")
    keys.press("Control+z")
    saved(desk, 10)
    keys.press("Control+z")
    saved(desk, 11)
    keys.press("Control+Shift+z")
    saved(desk, 12)
    assert days(program)[0][0].startswith("Overhead")


def test_a_block_with_a_ramp_is_written_by_keyboard_only(editor, program):
    keys = editor.keyboard

    def tab_to(target: str) -> None:
        for _ in range(150):
            if editor.evaluate("document.activeElement.id") == target:
                return
            keys.press("Tab")
        raise AssertionError(f"{target} cannot be reached with Tab")

    def type_in(target: str, text: str) -> None:
        tab_to(target)
        keys.press("Control+a")
        keys.type(text)

    # A remedy is taken from wherever one is, tried changes are dropped, and neither needs a mouse.
    tab_to("text-w1s1")
    keys.press("Alt+r")
    saved(editor, 2)
    tab_to("undo")
    tab_to("try")
    keys.press("Enter")
    expect(editor.locator("#editor-status")).to_contain_text("version 2 stays")
    keys.press("Alt+r")
    expect(editor.locator("#difference")).to_contain_text("This week, only what differs")
    tab_to("drop")
    keys.press("Enter")
    saved(editor, 2)
    assert program.revisions.count() == 2
    keys.press("Control+z")
    saved(editor, 3)

    # The ramp: four weeks with a deload, nine sets of biceps at the peak.
    tab_to("all-weeks-b1")
    keys.press("Enter")
    expect(editor.locator("h1")).to_have_text("Weeks side by side")
    type_in("f-weeks", "4")
    type_in("f-group.biceps.sets", "9-4")
    tab_to("set-ramp")
    keys.press("Enter")
    expect(editor.locator("[id='e-group.biceps.sets']")).to_contain_text("may not end lower")
    type_in("f-group.biceps.sets", "9")
    tab_to("set-ramp")
    keys.press("Enter")
    expect(editor.locator(".weeks-table thead")).to_contain_text("Week 4")
    program.refresh_from_db()
    block = program.document["blocks"][0]
    assert [week["days"][0]["slots"][0]["sets"] for week in block["weeks"]] == [3, 6, 9, 2]

    # One week by hand, and back.
    second = block["weeks"][1]
    editor.locator(f"[id='week-{second['key']}'] a").focus()
    keys.press("Enter")
    expect(editor.locator("#week-hand")).to_contain_text("comes from the base week")
    tab_to(f"text-{second['days'][0]['slots'][0]['key']}")
    keys.press("Control+a")
    keys.type("10 x 5 @ 0")
    keys.press("Enter")
    saved(editor, 5)
    expect(editor.locator(f"#hand-{second['days'][0]['slots'][0]['key']}")).to_have_text("by hand")
    tab_to("all-weeks-b1")
    keys.press("Enter")
    expect(editor.locator(".weeks-table")).to_contain_text("10 × 5")
    editor.locator(".weeks-table .release button").focus()
    keys.press("Enter")
    expect(editor.locator(".weeks-table")).not_to_contain_text("10 × 5")
    program.refresh_from_db()
    assert program.document["blocks"][0]["weeks"][1]["days"][0]["slots"][0]["sets"] == 6


def test_weeks_side_by_side_scroll_inside_their_own_region_on_a_phone(phone, live_server, sign_in, world, program):
    sign_in(phone, world.coach)
    phone.goto(f"{live_server.url}/programs/{program.pk}/weeks/")
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390
    phone.locator("#f-weeks").fill("8")
    phone.locator("#set-ramp").click()
    expect(phone.locator(".weeks-table thead")).to_contain_text("Week 8")
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390
    expect(phone.locator("#weeks")).to_be_focused()  # the heading above what was made, not the whole table
    region = phone.locator(".weeks-wrap")
    assert region.evaluate("one => one.scrollWidth > one.clientWidth && one.tabIndex === 0")


def test_the_sums_and_the_length_follow_what_is_typed(editor, program):
    biceps = editor.locator("#editor-side table").first.locator("tr", has_text="biceps")
    expect(biceps).to_contain_text("4.5")
    before = editor.locator(".day-facts").first.inner_text()
    editor.locator("#text-w1s1").fill("6 x 8-12 @ 1-2 RIR")
    editor.locator("#text-w1s1").press("Tab")
    saved(editor, 2)
    expect(biceps).to_contain_text("7.5")
    assert editor.locator(".day-facts").first.inner_text() != before
    expect(editor.locator("#text-w1s1")).to_have_value("6 × 8–12 @ 1–2 RIR")


def test_days_too_close_together_are_said_in_words(editor, program):
    expect(editor.locator("#editor-side")).to_contain_text("48 h or more")
    editor.locator("#weekday-1").select_option("1")
    expect(editor.locator("#editor-side .gap")).to_contain_text("under 48 hours later")
    program.refresh_from_db()
    assert program.weekdays == [0, 1]


def test_a_mistake_is_told_beside_the_field_and_what_was_typed_stays(editor, program):
    line = editor.locator("#text-w1s1")
    line.fill("3 x lots")
    line.press("Tab")
    expect(editor.locator("#error-w1s1")).to_contain_text("was not understood")
    expect(line).to_have_value("3 x lots")
    expect(line).to_have_attribute("aria-invalid", "true")
    line.fill("3 x 5")
    line.press("Tab")
    saved(editor, 2)
    expect(editor.locator("#error-w1s1")).to_be_hidden()


def test_drag_brings_an_exercise_to_another_day(editor, program):
    editor.drag_and_drop("#slot-w1s1 .grip", "#slot-w1s3 .slot-name")
    saved(editor, 2)
    assert [len(day) for day in days(program)] == [1, 2]


def test_pair_swap_and_copy_with_the_buttons(editor, program, library):
    editor.locator("#more-w1s1 summary").click()
    editor.locator("#more-w1s1").get_by_role("button", name="Pair with next").click()
    saved(editor, 2)
    editor.locator("#find-w1s1").click()
    first = editor.locator("#options-w1s1 [role=option]").first
    expect(first).to_contain_text("listed substitute; same heads")
    first.click()
    saved(editor, 3)
    editor.locator(".day").first.get_by_text("Copy, move or remove this day").click()
    editor.get_by_role("button", name="Copy this day").first.click()
    saved(editor, 4)
    day = ["A1 Long reach curl: 3 × 8–12 @ 1–2 RIR", "A2 Overhead wand press-down: 3 × 8–12 @ 1–2 RIR"]
    assert days(program)[:2] == [day, day]


def test_two_windows_neither_loses_what_was_typed(editor, open_page, live_server, sign_in, world, program):
    other = open_page(viewport={"width": 1280, "height": 900})
    sign_in(other, world.owner)
    other.goto(f"{live_server.url}/programs/{program.pk}/")
    other.locator("#text-w1s2").fill("5 x 5")
    other.locator("#text-w1s2").press("Tab")
    saved(other, 2)
    editor.locator("#text-w1s1").fill("4 x 4")
    editor.locator("#text-w1s1").press("Tab")
    conflict = editor.locator("#editor-conflict")
    expect(conflict).to_contain_text("Olive")
    expect(conflict).to_contain_text("Overhead wand press-down")
    assert days(program)[0][0] == "Wand curl: 3 × 8–12 @ 1–2 RIR"
    conflict.get_by_role("button", name="Make my change on the newer version").click()
    saved(editor, 3)
    expect(editor.locator("#text-w1s2")).to_have_value("5 × 5 @ 1–2 RIR")
    assert days(program)[0] == ["Wand curl: 4 × 4 @ 1–2 RIR", "Overhead wand press-down: 5 × 5 @ 1–2 RIR"]


def test_what_is_typed_without_a_connection_is_saved_when_it_is_back(editor, program):
    editor.context.set_offline(True)
    editor.locator("#text-w1s1").fill("4 x 4")
    editor.locator("#text-w1s1").press("Tab")
    expect(editor.locator("#editor-status")).to_contain_text("no connection")
    editor.locator("#text-w1s2").fill("5 x 5")
    editor.locator("#text-w1s2").press("Tab")
    editor.context.set_offline(False)
    saved(editor, 3)
    assert days(program)[0] == ["Wand curl: 4 × 4 @ 1–2 RIR", "Overhead wand press-down: 5 × 5 @ 1–2 RIR"]


def test_a_phone_has_one_column_and_nothing_sticks_out(phone, live_server, sign_in, world, program):
    sign_in(phone, world.coach)
    phone.goto(f"{live_server.url}/programs/{program.pk}/")
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390
    boxes = [phone.locator(".day").nth(number).bounding_box() for number in range(2)]
    assert boxes[1]["y"] > boxes[0]["y"] + boxes[0]["height"] - 1


def test_without_a_script_a_program_can_be_written_too(open_page, live_server, sign_in, world, program, library):
    page = open_page(java_script_enabled=False, viewport={"width": 1280, "height": 900})
    sign_in(page, world.coach)
    page.goto(f"{live_server.url}/programs/{program.pk}/")
    page.locator("#text-w1s1").fill("4 x 4 @ 1 RIR")
    page.locator("#text-w1s1").press("Enter")
    page.locator("#add-w1d2").fill("hammer")
    page.locator("#add-w1d2").press("Enter")
    page.get_by_role("button", name="Add Hammer grip curl").click()
    page.get_by_role("button", name="Undo").click()
    page.get_by_role("button", name="Redo").click()
    assert days(program) == [
        ["Wand curl: 4 × 4 @ 1 RIR", "Overhead wand press-down: 3 × 8–12 @ 1–2 RIR"],
        ["Slow row: 3 × 8–12 @ 1–2 RIR", "Hammer grip curl: 3 × 8–12 @ 1–2 RIR"],
    ]


def test_a_refused_field_stays_marked_whatever_else_is_changed(editor, program):
    line = editor.locator("#text-w1s1")
    line.fill("200 x 8")
    line.press("Tab")
    expect(editor.locator("#error-w1s1")).to_contain_text("between 1 and 20")
    editor.locator("#add-day").click()
    saved(editor, 2)
    expect(editor.locator("#error-w1s1")).to_contain_text("between 1 and 20")
    expect(line).to_have_value("200 x 8")
    expect(editor.locator("#editor-status")).to_contain_text("1 field is not saved.")
    # Back to what was saved: nothing is wrong any more.
    line.press("Escape")
    expect(line).to_have_value("3 × 8–12 @ 1–2 RIR")
    expect(editor.locator("#error-w1s1")).to_be_hidden()
    expect(editor.locator("#editor-status")).not_to_contain_text("not saved")


def test_enter_sends_a_change_once_though_it_leaves_the_field(editor):
    sent = []
    editor.on("request", lambda request: sent.append(request.url) if request.url.endswith("/change/") else None)
    editor.locator("#text-w1s1").fill("5 x 5 @ 2 RIR")
    editor.locator("#text-w1s1").press("Enter")
    saved(editor, 2)
    editor.wait_for_timeout(1000)
    assert len(sent) == 1
