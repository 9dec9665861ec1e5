"""One program to several clients in a real browser: what differs is read, one choice is changed, and all get theirs."""

import datetime as dt
import re

import pytest
from allauth.account.models import EmailAddress
from playwright.sync_api import expect

from programs.models import Adaptation, Assignment, ClientLimit, PlannedSlot
from tests.conftest import make_client, make_world
from tests.programs.factories import make_library, make_program

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def world(transactional_db):
    """Two clients of the coach; Clemens keeps from the curl."""
    people = make_world()
    known = {"email": people.coach.email, "verified": True, "primary": True}
    EmailAddress.objects.get_or_create(user=people.coach, defaults=known)
    people.library = make_library()
    people.program = make_program(people, people.library)
    people.second = make_client(people.practice, "celia", people.coach_membership)
    ClientLimit.objects.create(
        client=people.client, exercise=people.library.curl, since=dt.date(2026, 1, 1), told_by=people.coach
    )
    return people


def test_assign_to_many_with_one_choice_changed(desk, live_server, sign_in, world):
    sign_in(desk, world.coach)
    desk.goto(f"{live_server.url}/programs/{world.program.pk}/assign/")
    for name in ("Clemens", "Celia"):
        desk.get_by_label(name).check()
    desk.get_by_role("button", name="Fit to each client").click()

    mine = desk.locator("tbody tr", has_text="Clemens")
    expect(mine).to_contain_text("Long reach curl instead of Wand curl")
    expect(mine).to_contain_text("Kept from: this exercise.")
    expect(desk.locator("tbody tr", has_text="Celia")).not_to_contain_text("instead of")

    # With the keyboard alone: open the row, whose form takes the focus; choose another; keep it.
    mine.get_by_role("link", name="Choose otherwise").press("Enter")
    choices = desk.get_by_role("form", name="Choices for Clemens")
    expect(choices).to_be_focused()
    choices.get_by_role("combobox").first.select_option(label="Hammer grip curl")
    choices.get_by_role("button", name="Keep these choices").press("Enter")
    expect(mine).to_contain_text("Hammer grip curl instead of Wand curl")
    expect(mine).to_contain_text("changed by you")

    desk.get_by_role("button", name="Assign to 2 clients").click()
    expect(desk.locator("main")).to_contain_text("2 clients have this program now.")
    names = {
        client: set(PlannedSlot.objects.filter(session__client=client).values_list("exercise__name", flat=True))
        for client in (world.client, world.second)
    }
    assert names[world.client] == {"Hammer grip curl", "Overhead wand press-down", "Slow row"}
    assert names[world.second] == {"Wand curl", "Overhead wand press-down", "Slow row"}
    assert Adaptation.objects.get(client=world.client, kind="swap").edited

    plan = Assignment.objects.get(client=world.client)
    desk.goto(f"{live_server.url}/assignments/{plan.pk}/")
    desk.get_by_role("button", name=re.compile("Undo.*First time")).click()
    expect(desk.locator("main")).to_contain_text("Undone by Carla")
