"""A client's weekly targets: the coach's own range, else the default for status and priority."""

import pytest
from django.urls import reverse

from programs.models import Assignment
from programs.services.targets import target_ranges_for
from programs.signals import plan_changed
from tests.programs.factories import make_library


@pytest.fixture
def library(db):
    return make_library()


FORM = {"training_status": "intermediate", "priority-biceps": "focus", "priority-triceps": "normal",
        "priority-lats": "maintain", "floor-triceps": "6", "ceiling-triceps": "9.5"}  # fmt: skip


def save(browser, world, **changes):
    return browser.post(reverse("client-targets", args=[world.client.pk]), {**FORM, **changes})


def test_priorities_and_own_ranges_are_kept_and_give_the_ranges(client, world, library):
    client.force_login(world.coach)
    assert save(client, world).status_code == 302
    world.client.refresh_from_db()
    assert world.client.priorities == {"biceps": "focus", "lats": "maintain"}
    assert world.client.target_overrides == {"triceps": [6.0, 9.5]}
    ranges = target_ranges_for(world.client, ["biceps", "triceps", "lats"])
    assert {slug: (one.floor, one.ceiling, one.source) for slug, one in ranges.items()} == {
        "biceps": (12.0, 20.0, "chosen"),
        "triceps": (6.0, 9.5, "coach"),
        "lats": (4.0, 8.0, "chosen"),
    }


def test_a_comma_is_a_decimal_sign(client, world, library):
    client.force_login(world.coach)
    save(client, world, **{"floor-triceps": "6,5"})
    world.client.refresh_from_db()
    assert world.client.target_overrides == {"triceps": [6.5, 9.5]}


def test_an_emptied_range_gives_the_default_again(client, world, library):
    client.force_login(world.coach)
    save(client, world)
    save(client, world, **{"floor-triceps": "", "ceiling-triceps": ""})
    world.client.refresh_from_db()
    assert world.client.target_overrides == {}


@pytest.mark.parametrize(
    "wrong",
    [{"floor-triceps": ""}, {"ceiling-triceps": "5"}, {"floor-triceps": "-1"}, {"ceiling-triceps": "61"},
     {"floor-triceps": "nan"}, {"floor-triceps": "inf"}, {"priority-biceps": "much"}, {"training_status": "hero"}],
)  # fmt: skip
def test_a_wrong_range_is_told_beside_it_and_nothing_is_saved(client, world, library, wrong):
    client.force_login(world.coach)
    reply = save(client, world, **wrong)
    assert reply.status_code == 422
    assert "errorlist" in reply.content.decode()
    world.client.refresh_from_db()
    assert (world.client.priorities, world.client.target_overrides) == ({}, {})


def test_this_week_of_the_clients_calendar_is_judged_anew(client, world, library, time_machine_monday):
    heard = []

    def listen(sender, client_id, since, **rest):
        heard.append((client_id, since.isoformat()))

    plan_changed.connect(listen, sender=Assignment)
    world.client.user.time_zone = "Pacific/Auckland"
    world.client.user.save()
    client.force_login(world.coach)
    save(client, world)
    # Sunday evening in UTC is Monday morning there: the new week.
    assert heard == [(world.client.pk, "2026-11-30")]


@pytest.fixture
def time_machine_monday(monkeypatch, world):
    import datetime as dt

    from accounts.models import Engagement, Membership
    from programs.views import program_targets

    # Also when the tests run years later.
    for model in (Engagement, Membership):
        model.objects.update(started_on=dt.date(2026, 1, 1))

    sunday = dt.datetime(2026, 11, 29, 20, tzinfo=dt.UTC)
    monkeypatch.setattr(program_targets.timezone, "now", lambda: sunday)


def test_the_page_asks_as_often_for_few_groups_as_for_many(client, world, library, django_assert_num_queries):
    client.force_login(world.coach)
    # session, user, membership, client, may write, groups
    with django_assert_num_queries(7):
        client.get(reverse("client-targets", args=[world.client.pk]))


def test_each_range_stands_beside_its_source_and_the_spread_of_opinion(client, world, library):
    client.force_login(world.coach)
    save(client, world)
    html = client.get(reverse("client-targets", args=[world.client.pk])).content.decode()
    assert "default: intermediate, focus" in html
    assert "your own" in html
    assert "5 opinions, from 4 to 20 sets and more" in html
    assert "4 opinions, from 4 to 20 sets and more" in html
    assert html.count("Over 20 favoured for triceps only") == 1
    assert "12 to 20 suggested for trained young men" in html
    assert "Bernárdez-Vázquez et al. 2022, SOURCED" in html
    assert reverse("method", args=["weekly-volume"]) in html
