"""A limit came during the plan: the coach sees it, fits the plan again by keyboard, and the phone stops warning."""

import datetime as dt

import pytest
from allauth.account.models import EmailAddress
from playwright.sync_api import expect

from programs.models import Adaptation, ClientLimit, PlannedSlot
from tests.conftest import make_world
from tests.programs.revision_fixture import make_gym

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def gym(transactional_db):
    """A plan in its second week; Clemens keeps from the curl since today."""
    people = make_gym(make_world())
    known = {"email": people.coach.email, "verified": True, "primary": True}
    EmailAddress.objects.get_or_create(user=people.coach, defaults=known)
    ClientLimit.objects.create(
        client=people.client, exercise=people.library.curl, since=people.today, told_by=people.coach
    )
    return people


def test_fitting_again_by_keyboard(desk, live_server, sign_in, gym):
    sign_in(desk, gym.coach)
    desk.goto(f"{live_server.url}/clients/{gym.client.pk}/")
    expect(desk.locator("main")).to_contain_text("1 exercise still planned is closed to the client: Wand curl.")
    desk.get_by_role("link", name="Fit again").press("Enter")

    main = desk.locator("main")
    expect(main).to_contain_text("Added since: to keep from this exercise.")
    line = main.get_by_role("group", name="instead of Wand curl")
    expect(line).to_contain_text("has to be met")
    line.get_by_role("combobox").press("ArrowDown")
    chosen = line.get_by_role("combobox").evaluate("box => box.selectedOptions[0].text")
    desk.get_by_role("button", name="Look again with these choices").press("Enter")
    expect(main).to_contain_text("Nothing was written yet.")
    expect(main.get_by_role("group", name="instead of Wand curl")).to_contain_text("your choice")
    assert not Adaptation.objects.exists()

    desk.get_by_role("button", name="Write it into the plan").press("Enter")
    expect(main).to_contain_text("Adapted for this client")
    expect(main).to_contain_text("instead of Wand curl")
    rows = PlannedSlot.objects.filter(session__assignment=gym.assignment)
    to_come = set(rows.filter(session__date__gte=gym.today).values_list("exercise__name", flat=True))
    past = set(rows.filter(session__date__lt=gym.today).values_list("exercise__name", flat=True))
    assert "Wand curl" in past
    assert "Wand curl" not in to_come
    assert Adaptation.objects.get(kind="swap").to_exercise.name in chosen
    desk.goto(f"{live_server.url}/clients/{gym.client.pk}/")
    expect(main).not_to_contain_text("was not fitted")


def test_for_some_days_by_keyboard(desk, live_server, sign_in, gym):
    ClientLimit.objects.all().delete()
    sign_in(desk, gym.coach)
    desk.goto(f"{live_server.url}/assignments/{gym.assignment.pk}/fit/")
    desk.get_by_text("For some days only").press("Enter")
    last = (gym.today + dt.timedelta(days=6)).isoformat()
    desk.get_by_label("Last day").fill(last)
    desk.get_by_label("Minutes for a session").fill("15")
    desk.get_by_label("Minutes for a session").press("Enter")
    expect(desk.locator("main")).to_contain_text("Only the sessions from")
    desk.get_by_role("button", name="Write it into the plan").press("Enter")
    expect(desk.locator("main")).to_contain_text("Adapted for this client")
    assert {row.until.isoformat() for row in Adaptation.objects.all()} == {last}
