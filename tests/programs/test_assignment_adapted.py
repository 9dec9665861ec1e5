"""Assigning with differences: each client's own copy, records of why, and a door that no limit's exercise passes."""

import datetime as dt

import pytest

from programs.document.adapt import Change
from programs.models import Adaptation, Assignment, ClientLimit, Limit
from programs.services.adaptations import Adapted, change_of
from programs.services.assignment_make import AssignError, program_assign
from tests.programs.factories import make_library, make_program

MONDAY = dt.date(2026, 3, 2)


@pytest.fixture
def library(db):
    return make_library()


@pytest.fixture
def program(world, library):
    return make_program(world, library, weeks=2)


def assign(world, program, clients, **more):
    return program_assign(
        program=program, clients=clients, starts_on=MONDAY, weekdays=[0, 3], assigned_by=world.coach, **more
    )


def exercises_of(assignment):
    return [slot.exercise for session in assignment.sessions.all() for slot in session.slots.all()]


def close(client, world, **what):
    return ClientLimit.objects.create(client=client, since=MONDAY, told_by=world.coach, **what)


def test_each_client_gets_their_own_copy_and_the_record_says_why(world, program, library):
    swap = Adapted(Change("swap", library.curl.pk, library.hammer.pk), "equipment", {"has": "bar"}, edited=True)
    start = Adapted(Change("start", library.press.pk, load_kg=30.0), "start-known", {"e1rm": 50})
    mine, other = assign(
        world, program, [world.client, world.other_client], adaptations={world.client.pk: [swap, start]}
    )
    assert exercises_of(mine) == [library.hammer, library.press, library.row] * 2
    assert exercises_of(other) == [library.curl, library.press, library.row] * 2
    starts = [slot.start_load_kg for one in mine.sessions.all() for slot in one.slots.all()]
    assert starts == [None, 30.0, None, None, None, None]
    rows = list(Adaptation.objects.filter(client=world.client))
    assert [(r.assignment, r.reason, r.reason_params, r.edited, r.created_by) for r in rows] == [
        (mine, "equipment", {"has": "bar"}, True, world.coach), (mine, "start-known", {"e1rm": 50}, False, world.coach),
    ]  # fmt: skip
    assert [change_of(row) for row in rows] == [swap.change, start.change]


def test_a_day_that_loses_all_its_exercises_has_no_session(world, program, library):
    [made] = assign(
        world,
        program,
        [world.client],
        adaptations={world.client.pk: [Adapted(Change("leave-out", library.row.pk), "x")]},
    )
    assert [session.day_name for session in made.sessions.all()] == ["Day 1", "Day 1"]


def test_what_a_limit_closes_is_never_assigned(world, program, library):
    kneeling = Limit.objects.create(slug="kneeling", name="kneeling", sentence="Weight on the knees.", site="knee")
    for exercise in (library.curl, library.press, library.hammer, library.row):
        exercise.limits_judged = True
        exercise.save()
    library.curl.limits.add(kneeling)
    close(world.client, world, limit=kneeling)
    with pytest.raises(AssignError, match=r"Clemens \(Wand curl\)"):
        assign(world, program, [world.client, world.other_client])
    assert not Assignment.objects.exists()
    swap = Adapted(Change("swap", library.curl.pk, library.hammer.pk), "limit")
    assert assign(world, program, [world.client, world.other_client], adaptations={world.client.pk: [swap]})


def test_a_single_exercise_can_be_closed_and_a_limit_ends_after_its_last_day(world, program, library):
    limit = close(world.client, world, exercise=library.row)
    with pytest.raises(AssignError, match="Slow row"):
        assign(world, program, [world.client])
    limit.until = limit.since = MONDAY - dt.timedelta(days=1)
    limit.save()
    assert assign(world, program, [world.client])
