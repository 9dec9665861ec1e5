"""Each check-in of a week against the client's own usual, on the row and on the page."""

import datetime as dt

import pytest
from django.urls import reverse

from coaching.models import FlagRow, WeekSummary
from coaching.recompute import run
from tests.coaching import factories as make

pytestmark = pytest.mark.django_db


def answered(world, last, usual=4, days=20):
    """Answer `usual` for `days` days before last week's Tuesday, and `last` on it."""
    day = make.monday(1) + dt.timedelta(days=1)
    for ago in range(1, days + 1):
        make.check_in(world.client, day - dt.timedelta(days=ago), usual)
    make.check_in(world.client, day, last)
    make.request(world.client, day - dt.timedelta(days=days))
    run.work_off(world.client.pk)
    return WeekSummary.objects.get(client=world.client, week=make.monday(1)).check_ins["days"][-1]


@pytest.mark.parametrize(("last", "state"), [(3, "below"), (4, "usual"), (5, "above")])
def test_a_day_is_compared_with_the_days_before_it(world, last, state):
    day = answered(world, last)
    assert (day["state"], day["total"], day["median"], day["count"]) == (state, 5 * last, 20, 20)
    assert day["items"]["sleep"] == [last, last - 4]


def test_low_answers_are_usual_for_a_client_who_always_answers_low(world):
    assert answered(world, 2, usual=2)["state"] == "usual"


def test_without_enough_days_before_it_the_page_says_how_many_are_needed(world, client):
    answered(world, 1, days=3)
    client.force_login(world.coach)
    html = client.get(reverse("client-page", args=[world.client.pk]), {"week": make.monday(1)}).content.decode()
    assert "3 earlier check-ins; 7 are needed before a day can be compared." in html


def test_the_page_names_the_answers_that_moved_and_links_the_method(world, client):
    answered(world, 3)
    client.force_login(world.coach)
    html = client.get(reverse("client-page", args=[world.client.pk]), {"week": make.monday(1)}).content.decode()
    assert "sleep quality 3, usually 4" in html
    assert reverse("method", args=["readiness"]) in html


def test_one_low_day_flags_nothing(world):
    assert answered(world, 1)["state"] == "below"
    assert not FlagRow.objects.filter(rule_id="check_in.below_own_baseline").exists()
