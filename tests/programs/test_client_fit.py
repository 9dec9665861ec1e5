"""Limits and equipment: told by coach or client, taken off by who may, and never half saved."""

import datetime as dt

import pytest
from django.urls import reverse

from programs.models import ClientEquipment, ClientLimit, Limit
from tests.programs.factories import make_library


@pytest.fixture
def kneeling(db):
    return Limit.objects.create(slug="kneeling", name="kneeling", sentence="Weight on the knees.", site="knee")


@pytest.fixture
def library(db):
    return make_library()


def fit_page(world):
    return reverse("client-fit", args=[world.client.pk])


def keep(world, exercise):
    since = dt.date(2026, 1, 1)
    return ClientLimit.objects.create(client=world.client, exercise=exercise, since=since, told_by=world.coach)


def test_the_coach_adds_a_limit_and_takes_it_off(client, world, kneeling, library):
    client.force_login(world.coach)
    assert client.post(fit_page(world), {"limit": kneeling.pk, "note": "After the fall."}).status_code == 302
    row = ClientLimit.objects.get(client=world.client)
    assert (row.limit, row.since, row.told_by, row.note) == (
        kneeling, world.client.user.today(), world.coach, "After the fall.",
    )  # fmt: skip
    assert "After the fall." in client.get(fit_page(world)).content.decode()
    client.post(reverse("client-limit-off", args=[row.pk]))
    assert not ClientLimit.objects.exists()


def test_a_limit_that_held_is_kept_as_history(client, world, kneeling):
    today = world.client.user.today()
    row = ClientLimit.objects.create(
        client=world.client, limit=kneeling, since=today - dt.timedelta(days=30), told_by=world.coach
    )
    client.force_login(world.coach)
    client.post(reverse("client-limit-off", args=[row.pk]))
    row.refresh_from_db()
    assert row.until == today - dt.timedelta(days=1)
    assert "no longer holds" in client.get(fit_page(world)).content.decode()


def test_the_client_tells_it_and_takes_off_only_what_they_told(client, world, kneeling, library):
    client.force_login(world.client.user)
    client.post(reverse("own-fit"), {"exercise": library.curl.pk})
    own = ClientLimit.objects.get(client=world.client)
    assert own.told_by == world.client.user
    theirs = ClientLimit.objects.create(
        client=world.client, limit=kneeling, since=dt.date(2026, 1, 1), told_by=world.coach
    )
    text = client.get(reverse("own-fit")).content.decode()
    assert reverse("client-limit-off", args=[own.pk]) in text
    assert reverse("client-limit-off", args=[theirs.pk]) not in text
    assert client.post(reverse("client-limit-off", args=[theirs.pk])).status_code == 403
    assert client.post(reverse("client-limit-off", args=[own.pk])).url == reverse("own-fit")


@pytest.mark.parametrize(
    ("sent", "said"),
    [
        ({}, "Choose one"),
        ({"limit": "kneeling", "exercise": "curl"}, "Choose one"),
        ({"limit": "99999"}, "Select a valid choice"),
        ({"limit": "kneeling", "until": "2001-01-01"}, "That day is over"),
        ({"limit": "kneeling", "until": "soon"}, "Enter a valid date"),
    ],
)
def test_half_a_limit_is_not_kept(client, world, kneeling, library, sent, said):
    ids = {"kneeling": kneeling.pk, "curl": library.curl.pk}
    client.force_login(world.coach)
    reply = client.post(fit_page(world), {name: ids.get(value, value) for name, value in sent.items()})
    assert reply.status_code == 422
    assert said in reply.content.decode()
    assert not ClientLimit.objects.exists()


def test_the_same_limit_is_not_told_twice(client, world, kneeling):
    client.force_login(world.coach)
    client.post(fit_page(world), {"limit": kneeling.pk})
    assert "holds already" in client.post(fit_page(world), {"limit": kneeling.pk}).content.decode()
    assert ClientLimit.objects.count() == 1


def test_equipment_and_minutes_are_replaced_and_nothing_means_everything(client, world, library):
    client.force_login(world.coach)
    bar = library.curl.equipment
    client.post(fit_page(world), {"gear": "yes", "equipment": [bar.pk], "minutes": "45"})
    world.client.refresh_from_db()
    assert ([row.equipment for row in ClientEquipment.objects.all()], world.client.minutes_per_session) == ([bar], 45)
    client.post(fit_page(world), {"gear": "yes", "minutes": ""})
    world.client.refresh_from_db()
    assert (ClientEquipment.objects.exists(), world.client.minutes_per_session) == (False, None)
    wrong = client.post(fit_page(world), {"gear": "yes", "minutes": "5"})
    assert wrong.status_code == 422
    assert "greater than or equal to 15" in wrong.content.decode()


def test_the_page_costs_the_same_with_few_and_many_limits(client, world, library, django_assert_num_queries):
    client.force_login(world.coach)
    ClientLimit.objects.create(
        client=world.client, exercise=library.curl, since=dt.date(2026, 1, 1), told_by=world.coach
    )
    client.get(fit_page(world))
    with django_assert_num_queries(12):
        client.get(fit_page(world))
    for exercise in (library.row, library.press, library.push):
        ClientLimit.objects.create(
            client=world.client, exercise=exercise, since=dt.date(2026, 1, 1), told_by=world.coach
        )
    with django_assert_num_queries(12):
        client.get(fit_page(world))
