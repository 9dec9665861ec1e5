"""Many clients on the fitting page by keyboard alone: one decision for several, with an exception, then assign."""

import pytest
from allauth.account.models import EmailAddress
from playwright.sync_api import expect

from programs.models import Assignment, ClientEquipment, Equipment, Fitting, PlannedSlot
from programs.services.fitting import fitting_begin
from tests.coaching.fitting_acts import MONDAY
from tests.conftest import make_client, make_world
from tests.programs.factories import make_library, make_program

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def world(transactional_db):
    """Four clients of whom three have a band alone; Carla coaches all of them."""
    people = make_world()
    known = {"email": people.coach.email, "verified": True, "primary": True}
    EmailAddress.objects.get_or_create(user=people.coach, defaults=known)
    people.library = make_library()
    people.program = make_program(people, people.library)
    people.many = [make_client(people.practice, name, people.coach_membership) for name in ("cara", "cid", "curt")]
    # Rowing needs what the three do not have.
    gear = people.library.row.equipment
    people.library.row.equipment = Equipment.objects.create(
        slug="tower", name="tower", kind="none", ladder={"kind": "none"}
    )
    people.library.row.save()
    for client in people.many:
        ClientEquipment.objects.create(client=client, equipment=gear, told_by=people.coach)
    people.fitting = fitting_begin(
        program=people.program,
        clients=[people.client, *people.many],
        starts_on=MONDAY,
        weekdays=[0, 3],
        end_running=True,
        author=people.coach,
    )
    return people


def test_one_decision_for_several_by_keyboard(desk, live_server, sign_in, world):
    sign_in(desk, world.coach)
    desk.goto(f"{live_server.url}/fittings/{world.fitting.pk}/")
    focused = desk.locator(":focus")
    heading = desk.get_by_role("heading", name="The same for several clients")
    expect(heading).to_be_visible()
    # Down the lines to the one that several share.
    for _press in range(20):
        desk.keyboard.press("j")
        if "instead of Slow row" in focused.inner_text() or "Slow row is left out" in focused.inner_text():
            break
    expect(focused).to_contain_text("3 clients")
    desk.keyboard.press("Enter")
    decision = desk.locator("details[open]", has=desk.get_by_role("button", name="Keep for those ticked")).last
    decision.get_by_label("What is done").press("Tab")
    decision.get_by_label("What is done").select_option(label="leave it as written")
    decision.get_by_label("Cid").press("Space")
    decision.get_by_role("button", name="Keep for those ticked").press("Enter")
    expect(desk.get_by_text("Kept for 2 clients.")).to_be_visible()
    # The focus is where the decision was made.
    expect(desk.locator("summary:focus")).to_contain_text("Slow row")
    said = Fitting.objects.get().choices
    assert {int(pk) for pk in said} == {world.many[0].pk, world.many[2].pk}

    # Sifted by what was changed, and the client who was no exception has it in their row.
    desk.get_by_role("link", name="changed by you").press("Enter")
    desk.wait_for_url("**/?show=changed")
    expect(desk.locator("tbody tr")).to_have_count(2)
    desk.keyboard.press("k")
    expect(focused).to_have_text("Choose otherwise: Curt")
    desk.keyboard.press("o")
    expect(desk.locator("tbody tr", has_text="Curt").locator("details[data-unfold]")).to_have_attribute("open", "")
    desk.keyboard.press("Enter")
    expect(desk.get_by_role("form", name="Choices for Curt")).to_be_focused()
    desk.keyboard.press("Escape")
    expect(desk.locator("tbody tr", has_text="Curt").get_by_role("link", name="Choose otherwise")).to_be_focused()

    desk.get_by_role("button", name="Assign to 4 clients").first.press("Enter")
    expect(desk.locator("main")).to_contain_text("4 clients have this program now.")
    row = {
        plan.client_id: PlannedSlot.objects.filter(session__assignment=plan, exercise=world.library.row).exists()
        for plan in Assignment.objects.all()
    }
    assert row == {world.client.pk: True, world.many[0].pk: True, world.many[1].pk: False, world.many[2].pk: True}


def test_a_phone_shows_every_row_without_scrolling_sideways(phone, live_server, sign_in, world):
    sign_in(phone, world.coach)
    phone.goto(f"{live_server.url}/fittings/{world.fitting.pk}/")
    phone.locator("main details.rest > summary").tap()
    phone.evaluate("for (const one of document.querySelectorAll('main details')) one.open = true")
    wide = phone.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert wide <= 0
    for person in (world.client, *world.many):
        expect(phone.locator(f"#client-{person.pk}")).to_be_visible()
