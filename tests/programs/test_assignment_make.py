"""Assigning copies the program for each client, and later edits do not reach the copy."""

import datetime as dt

import pytest
from django.urls import reverse

from programs.document.edits import Operation
from programs.models import Assignment, PlannedSession, PlannedSlot
from programs.services.assignment_end import assignment_end
from programs.services.assignment_make import AssignError, program_assign
from programs.services.program_write import program_archive, program_create, program_edit
from programs.signals import plans_changed
from tests.conftest import make_client
from tests.programs.factories import document, make_library, make_program, slot

MONDAY = dt.date(2026, 11, 30)


@pytest.fixture
def library(db):
    return make_library()


@pytest.fixture
def program(world, library):
    return make_program(world, library, weeks=2)


@pytest.fixture
def told():
    """What listeners above this room hear."""
    heard = []

    def listen(sender, since, **rest):
        heard.append(since)

    plans_changed.connect(listen, sender=Assignment)
    yield heard
    plans_changed.disconnect(listen, sender=Assignment)


def assign(world, program, clients=None, **fields):
    known = {"starts_on": MONDAY, "weekdays": [0, 3], "assigned_by": world.coach, **fields}
    return program_assign(program=program, clients=clients or [world.client], **known)


def test_each_client_gets_dated_sessions_with_the_prescription_as_written(world, library, program):
    second = make_client(world.practice, "celia", world.coach_membership)
    made = assign(world, program, [world.client, second])
    assert [one.client for one in made] == [world.client, second]
    for one in made:
        sessions = list(one.sessions.all())
        assert [s.date.isoformat() for s in sessions] == ["2026-11-30", "2026-12-03", "2026-12-07", "2026-12-10"]
        assert {s.client for s in sessions} == {one.client}
        assert [s.exercise for s in sessions[0].slots.all()] == [library.curl, library.press]
        row = sessions[1].slots.get()
        assert (row.exercise, row.sets_min, row.sets, row.reps_min, row.reps_max) == (library.row, 3, 4, 8, 12)
        assert (row.rir_min, row.rir_max, row.rest_s, row.position) == (1, 2, 120, 1)
    assert (made[0].program_version, made[0].name, made[0].weekdays) == (1, "Arms", [0, 3])


def test_pairs_are_lettered_and_deload_weeks_marked(world, library, program):
    program_edit(program=program, user=world.coach, base_version=1, operation=Operation("pair", {"slot": "w1s1"}))
    program.refresh_from_db()
    deload = Operation("mark-deload", {"week": "w2", "deload": True})
    program_edit(program=program, user=world.coach, base_version=2, operation=deload)
    program.refresh_from_db()
    (made,) = assign(world, program)
    sessions = list(made.sessions.all())
    assert [s.pair for s in sessions[0].slots.all()] == ["A1", "A2"]
    assert [s.is_deload for s in sessions] == [False, False, True, True]
    assert sessions[0].slots.first().sets_min is None


def test_weaker_side_first_reaches_the_client(world, program):
    sides = Operation("order-sides", {"slot": "w1s1", "weaker_first": True})
    revision = program_edit(program=program, user=world.coach, base_version=1, operation=sides)
    assert revision.summary == "Wand curl (Day 1), week 1 of Block 1: the weaker side first"
    program.refresh_from_db()
    (made,) = assign(world, program)
    assert [s.weaker_first for s in made.sessions.first().slots.all()] == [True, False]


def test_the_load_of_a_ramp_reaches_the_phone_and_the_hand_out_and_the_target_stays(client, world, program):
    ramp = Operation("ramp", {"block": "b1", "weeks": "3", "deload": True, "rules": {"every.load": "2.5"}})
    program_edit(program=program, user=world.coach, base_version=1, operation=ramp)
    program.refresh_from_db()
    (made,) = assign(world, program)
    second = made.sessions.get(week_number=2, day_number=1)
    assert [one.slots.first().load_pct for one in made.sessions.filter(day_number=1)] == [100, 102.5, 90]
    assert second.slots.first().target_load_kg is None
    client.force_login(world.client.user)
    assert "load about 102.5 % of the first" in client.get(reverse("assignment-handout", args=[made.pk])).text
    assert "about 102.5 % of its first week" in client.get(reverse("planned-session", args=[second.pk])).text
    first = made.sessions.get(week_number=1, day_number=1)
    assert "of its first week" not in client.get(reverse("planned-session", args=[first.pk])).text


def test_editing_the_program_does_not_change_what_is_assigned(world, program):
    (made,) = assign(world, program)
    before = list(PlannedSlot.objects.values())
    program_edit(program=program, user=world.coach, base_version=1, operation=Operation("remove", {"key": "w1s1"}))
    assert list(PlannedSlot.objects.values()) == before
    made.refresh_from_db()
    assert made.program_version == 1


@pytest.mark.parametrize(
    ("fields", "message"),
    [
        ({"weekdays": [0]}, "2 weekdays"),
        ({"weekdays": [0, 0]}, "different weekday"),
        ({"weekdays": [0, 7]}, "different weekday"),
    ],
)
def test_weekdays_that_do_not_fit_are_refused(world, program, fields, message):
    with pytest.raises(AssignError, match=message):
        assign(world, program, **fields)
    assert not Assignment.objects.exists()


def test_nobody_nothing_and_what_is_put_away_cannot_be_assigned(world, program):
    with pytest.raises(AssignError, match="at least one client"):
        program_assign(program=program, clients=[], starts_on=MONDAY, weekdays=[0, 3], assigned_by=world.coach)
    empty = program_create(practice=world.practice, author=world.coach, name="Empty", document=document([], []))
    with pytest.raises(AssignError, match="no exercise"):
        assign(world, empty)
    with pytest.raises(AssignError, match="put away"):
        assign(world, program_archive(program=program, archived=True))


def test_what_was_running_can_end_on_the_day_before(world, program):
    (old,) = assign(world, program)
    (new,) = assign(world, program, starts_on=MONDAY + dt.timedelta(days=7), end_running=True)
    old.refresh_from_db()
    assert (old.status, old.ended_on) == ("ended", dt.date(2026, 12, 6))
    open_dates = PlannedSession.objects.filter(client=world.client, cancelled_at=None).values_list("assignment", "date")
    assert sorted(open_dates)[:2] == [(old.pk, MONDAY), (old.pk, dt.date(2026, 12, 3))]
    assert sum(1 for pk, _ in open_dates if pk == new.pk) == 4


def test_without_that_both_run(world, program):
    (old,) = assign(world, program)
    assign(world, program, starts_on=MONDAY + dt.timedelta(days=7))
    old.refresh_from_db()
    assert old.status == "active"


def test_the_listeners_are_told_once_of_each_client_from_the_first_day(world, program, told):
    second = make_client(world.practice, "celia", world.coach_membership)
    assign(world, program, [world.client, second])
    assert told == [{world.client.pk: MONDAY, second.pk: MONDAY}]


def test_whose_plan_ends_is_told_of_from_the_last_day_on(world, program, told):
    second = make_client(world.practice, "celia", world.coach_membership)
    assign(world, program, starts_on=MONDAY - dt.timedelta(weeks=1))
    assign(world, program, [world.client, second], end_running=True)
    assert told[1:] == [{world.client.pk: MONDAY - dt.timedelta(days=1), second.pk: MONDAY}]


def test_queries_do_not_grow_with_the_clients(world, library, django_assert_num_queries):
    program = make_program(world, library)
    clients = [make_client(world.practice, f"c{n}", world.coach_membership) for n in range(6)]
    # savepoint, its release; lock on the clients, their copies, limits, equipment; assignments, sessions, which they
    # are, slots; requests to compute
    with django_assert_num_queries(11):
        assign(world, program, clients[:1])
    with django_assert_num_queries(11):
        assign(world, program, clients[1:])


def test_the_same_client_twice_gets_one_copy(world, program):
    assert len(assign(world, program, [world.client, world.client])) == 1


def test_a_slot_of_a_range_of_sets_written_as_one_number_has_no_lower_one(world, library):
    one = program_create(
        practice=world.practice, author=world.coach, name="One", document=document([slot("a", library.curl.pk, 3)])
    )
    (made,) = assign(world, one, weekdays=[2])
    assert PlannedSlot.objects.get(session__assignment=made).sets_min is None


def test_a_button_pressed_twice_assigns_once_and_says_so(world, program):
    assign(world, program, end_running=True)
    with pytest.raises(AssignError, match="Assigned already from that day on: "):
        assign(world, program, end_running=True)
    assert Assignment.objects.get().status == "active"
    # Ended before it began, it may be assigned anew.
    assignment_end(assignment=Assignment.objects.get(), last_day=MONDAY - dt.timedelta(days=1))
    assert len(assign(world, program)) == 1


def test_a_program_that_begins_earlier_also_ends_what_was_to_end_later(world, library, program):
    """First it was to be replaced from Monday in two weeks, then from next Monday: no day has two sessions."""
    (old,) = assign(world, program)
    other = make_program(world, library, weeks=2)
    assign(world, other, starts_on=MONDAY + dt.timedelta(days=14), end_running=True)
    third = make_program(world, library, weeks=2)
    assign(world, third, starts_on=MONDAY + dt.timedelta(days=7), end_running=True)
    open_days = PlannedSession.objects.filter(client=world.client, cancelled_at=None).values_list("date", flat=True)
    assert len(open_days) == len(set(open_days)) == 6
    old.refresh_from_db()
    assert old.ended_on == MONDAY + dt.timedelta(days=6)
