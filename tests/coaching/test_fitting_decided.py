"""A fitting that was assigned finds its own plans, by the link that is kept with them."""

import datetime as dt
from importlib import import_module

import pytest
from django.apps import apps
from django.urls import reverse

from programs.models import Assignment, Fitting
from programs.services.assignment_make import program_assign
from programs.services.program_write import program_create
from tests.coaching.fitting_acts import MONDAY, begin, make, page
from tests.conftest import make_client
from tests.programs.factories import document, make_library, slot

BACKEND = "allauth.account.auth_backends.AuthenticationBackend"
LATER = MONDAY + dt.timedelta(weeks=8)


@pytest.fixture
def coach(client, world):
    client.force_login(world.coach, backend=BACKEND)
    return client


@pytest.fixture
def program(world):
    library = make_library()
    return program_create(
        practice=world.practice, author=world.coach, name="Two days",
        document=document([slot("s1", library.curl.pk)], [slot("s2", library.row.pk)]),
    )  # fmt: skip


def plans_on(text):
    return {one.pk for one in Assignment.objects.all() if reverse("assignment-detail", args=[one.pk]) in text}


def test_the_plans_of_a_fitting_are_those_it_made(coach, world, program):
    fitting = begin(world, program, [world.client])
    # The same program for the same client, without a fitting and within its time.
    program_assign(
        program=program, clients=[world.client], starts_on=LATER, weekdays=[0, 3], assigned_by=world.coach
    )  # fmt: skip
    make(coach, fitting)
    mine = Assignment.objects.get(fitting=fitting)
    assert (mine.starts_on, plans_on(page(coach, fitting))) == (MONDAY, {mine.pk})


def test_a_client_who_left_is_not_shown_and_the_page_stays(coach, world, program):
    fitting = begin(world, program, [world.client])
    make(coach, fitting)
    world.client.engagements.update(ended_on=world.client.user.today() - dt.timedelta(days=1))
    text = page(coach, fitting)
    assert "None of these clients is yours any more." in text
    one = reverse("fitting-client", args=[fitting.pk, world.client.pk])
    for reply in (coach.get(one), coach.post(one, {"off": "yes"})):
        assert reply.url == reverse("fitting", args=[fitting.pk])


def test_its_author_reads_it_at_every_address_once_it_is_assigned(coach, world, program):
    fitting = begin(world, program, [world.client])
    make(coach, fitting)
    program.archived_at = fitting.created_at
    program.save()
    assert "Assigned on" in page(coach, fitting)
    made = coach.get(reverse("fitting-make", args=[fitting.pk]), follow=True)
    nobody = coach.get(reverse("fitting-client", args=[fitting.pk, 999999]), follow=True)
    assert all("Assigned on" in reply.content.decode() for reply in (made, nobody))
    coach.force_login(world.owner, backend=BACKEND)
    assert coach.get(reverse("fitting", args=[fitting.pk])).status_code == 404


def test_copies_of_before_get_the_fitting_that_made_them(coach, world, program):
    other = make_client(world.practice, "celia", world.coach_membership)
    outer, inner = begin(world, program, [world.client, other]), begin(world, program, [world.client])
    Fitting.objects.filter(pk=inner.pk).update(starts_on=LATER)
    make(coach, inner)
    make(coach, outer)
    program_assign(
        program=program, clients=[other], starts_on=LATER, weekdays=[0, 3], assigned_by=world.coach
    )  # fmt: skip
    expected = dict(Assignment.objects.values_list("pk", "fitting"))
    assert sorted(expected.values(), key=str) == [outer.pk, outer.pk, inner.pk, None]
    Assignment.objects.update(fitting=None)
    import_module("programs.migrations.0015_fitted_by_rows").link_copies(apps, None)
    assert dict(Assignment.objects.values_list("pk", "fitting")) == expected
