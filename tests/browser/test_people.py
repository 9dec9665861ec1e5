"""The pages about people, where a press saves many."""

import pytest
from django.urls import reverse

from tests.accounts.helpers import verify
from tests.conftest import make_client, make_world

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


def test_all_clients_are_ticked_for_handing_over_by_one_press_and_unticked_by_the_next(
    transactional_db, live_server, desk, sign_in
):
    world = make_world()
    verify(world.owner)
    make_client(world.practice, "cyrus", world.coach_membership)
    sign_in(desk, world.owner)
    desk.goto(live_server.url + reverse("hand-over", args=[world.coach_membership.pk]))
    boxes = desk.locator("input[name=clients]")
    assert boxes.count() == 2
    boxes.first.check()
    for ticked in (2, 0):
        desk.get_by_role("button", name="Tick or untick all").click()
        assert desk.locator("input[name=clients]:checked").count() == ticked
