"""A coach changes a program, looks at what that means for whom, brings it to clients, and the phone says so."""

import pytest
from allauth.account.models import EmailAddress
from playwright.sync_api import expect

from tests.conftest import make_world
from tests.programs.revision_fixture import make_gym

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def gym(transactional_db):
    people = make_world()
    for user in (people.coach, people.client.user):
        EmailAddress.objects.get_or_create(user=user, defaults={"email": user.email, "verified": True, "primary": True})
    return make_gym(people)


def test_a_program_is_revised_and_brought_to_a_client(desk, phone, live_server, sign_in, gym):
    row = gym.session("w2d1").slots.first()
    sign_in(desk, gym.coach)
    desk.goto(f"{live_server.url}/programs/{gym.program.pk}/?week=w2")
    line = desk.locator("#text-w2s1")
    line.fill("5 x 6-8 @ 1 RIR")
    line.press("Enter")
    notice = desk.locator("#editor-followed")
    expect(notice).to_contain_text("1 client follows version 1. The program is at version 2.")
    notice.get_by_role("link").click()
    expect(desk.get_by_text("Wand curl: 3 → 5 sets, 8–12 → 6–8 repetitions, RIR 1–2 → 1")).to_be_visible()
    desk.get_by_role("button", name="Bring to the ticked clients").click()
    expect(desk.get_by_text("1 client follows version 2 now.")).to_be_visible()
    row.refresh_from_db()
    assert (row.sets, row.reps_min, row.reps_max) == (5, 6, 8)
    sign_in(phone, gym.client.user)
    phone.goto(f"{live_server.url}/assignments/{gym.assignment.pk}/")
    phone.get_by_role("link", name="What changed").click()
    expect(phone.get_by_text("Wand curl: 3 → 5 sets")).to_be_visible()
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390
