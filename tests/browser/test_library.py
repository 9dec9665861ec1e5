"""The library in a real browser: filters as one types, the way back, and forms that show only what is needed."""

import pytest
from allauth.account.models import EmailAddress
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from programs.models import Equipment, Exercise
from programs.services.library_load import library_load
from tests.conftest import make_world
from tests.programs.library_fixture import library_data

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

DATA = library_data()
PER_PAGE = 40
GROUP = {head["slug"]: head["group"] for muscle in DATA.muscles for head in muscle["heads"]}
NAMED = {entry["slug"]: entry["name"] for entry in DATA.equipment}
WORDS = [f"{entry['name']} {NAMED[entry['equipment']]}".lower() for entry in DATA.exercises]
OVERHEAD_CABLE = sum("overhead" in words and "cable" in words for words in WORDS)
TRICEPS = min(PER_PAGE, sum(any(GROUP[head] == "triceps" for head in e["credits"]) for e in DATA.exercises))


@pytest.fixture
def world(transactional_db):
    library_load(library_data())
    people = make_world()
    for user in (people.coach, people.client.user):
        EmailAddress.objects.get_or_create(user=user, defaults={"email": user.email, "verified": True, "primary": True})
    return people


def test_the_list_narrows_while_typing_and_the_address_follows(desk, live_server, sign_in, world):
    sign_in(desk, world.coach)
    desk.goto(f"{live_server.url}/exercises/")
    rows = desk.locator("#results tbody tr")
    expect(rows).to_have_count(PER_PAGE)
    desk.locator("#id_q").press_sequentially("overhead cable", delay=30)
    expect(rows).to_have_count(OVERHEAD_CABLE)
    expect(desk.locator("#id_q")).to_be_focused()
    assert "q=overhead" in desk.url
    desk.locator("#id_q").fill("")
    desk.locator("#id_muscle").select_option("group:triceps")
    expect(rows).to_have_count(TRICEPS)
    desk.reload()
    expect(rows).to_have_count(TRICEPS)
    rows.first.get_by_role("link").first.click()
    desk.go_back()
    expect(desk.locator("h1")).to_have_text("Exercises")
    expect(desk.locator("#id_muscle")).to_have_value("group:triceps")


def test_without_a_script_the_same_form_answers(browser, live_server, sign_in, world):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    sign_in(page, world.coach)
    page.goto(f"{live_server.url}/exercises/")
    page.fill("#id_q", "overhead cable")
    page.get_by_role("button", name="Show").click()
    expect(page.locator("#results tbody tr")).to_have_count(OVERHEAD_CABLE)
    page.goto(f"{live_server.url}/exercises/new/")
    page.fill("#id_name", "Half written")
    page.get_by_role("button", name="Add rows").first.click()
    expect(page.locator("#id_name")).to_have_value("Half written")
    expect(page.locator("#id_credits-5-head")).to_be_visible()
    page.goto(f"{live_server.url}/equipment/new/")
    expect(page.locator("fieldset[data-kinds]:visible")).to_have_count(3)
    context.close()


def test_the_equipment_form_asks_only_for_what_its_kind_needs(desk, live_server, sign_in, world):
    sign_in(desk, world.coach)
    desk.goto(f"{live_server.url}/equipment/new/")
    desk.fill("#id_name", "Window rack")
    desk.select_option("#id_kind", "dumbbells")
    expect(desk.locator("#id_bar")).to_be_hidden()
    desk.fill("#id_values", "2, 4, 6.5")
    desk.locator("#id_values").press("Enter")
    expect(desk.locator("main")).to_contain_text("2, 4, 6.5 kg")


@pytest.mark.parametrize("size", ["desk", "phone"])
def test_axe_finds_nothing_and_nothing_sticks_out(request, live_server, sign_in, world, size):
    page = request.getfixturevalue(size)
    sign_in(page, world.coach)
    exercise = Exercise.objects.get(slug="overhead-cable-triceps-extension").pk
    equipment = Equipment.objects.get(slug="barbell").pk
    for path in (
        "/exercises/?muscle=group:triceps",
        f"/exercises/{exercise}/",
        f"/exercises/{exercise}/grades/",
        f"/exercises/new/?copy={exercise}",
        f"/equipment/{equipment}/",
        "/equipment/new/",
        "/equipment/",
        "/anatomy/",
    ):
        page.goto(f"{live_server.url}{path}")
        found = Axe().run(page).response["violations"]
        assert [(path, fault["id"], fault["nodes"][0]["target"]) for fault in found] == []
        wide = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
        assert wide <= 0, path
