"""The invented practice loads, goes on after a break, and stays out of production."""

import datetime as dt
from dataclasses import replace

import pytest
from django.core.management import CommandError, call_command

from accounts.models import Client, User
from demo.practice import people
from demo.practice.client import client_create
from demo.practice.drafted import write_drafted
from demo.practice.fitted import write_fitted
from demo.practice.people import PEOPLE
from demo.practice.programs import PLANS, RISING
from demo.practice.staff import staff_get_or_create
from demo.practice.strength import ONE_RM_KG
from demo.practice.truths import profile_of
from logbook.models import RecomputeRequest, Session, SetLog
from programs.document import document_from_json
from programs.models import DraftRun, Exercise
from programs.services.library_read import read_library

COUPLE = tuple(person for person in PEOPLE if person.name.split()[0] in ("Yara", "Quirin"))


@pytest.fixture
def library(db):
    call_command("load_library", verbosity=0)


@pytest.fixture
def couple(monkeypatch):
    """Two of the people, one of whom logs in pounds, so that the test stays short."""
    monkeypatch.setattr("demo.management.commands.load_demo.PEOPLE", COUPLE)


def test_practice_has_24_clients_and_every_course():
    assert len(PEOPLE) == 24
    assert len({person.name.split()[0] for person in PEOPLE}) == 24
    for person in PEOPLE:
        assert profile_of(person).unit == person.unit
    courses = {person.truth for person in PEOPLE}
    assert {"overreaching", "sore_elbow", "stops_coming", "novice"} <= courses


def test_every_exercise_of_the_programs_is_in_the_library_and_has_a_strength():
    library = {entry["slug"] for entry in read_library().exercises}
    plans = (*PLANS.values(), RISING)
    used = {line.split(":")[0].split()[-1] for plan in plans for _, lines in plan.days for line in lines}
    assert used <= library
    assert used <= set(ONE_RM_KG)


def test_a_program_says_for_whom_it_is_written(library):
    staff = staff_get_or_create(dt.datetime.now(dt.UTC).date())
    assert staff.programs["full_body"].written_for == "novice"
    assert staff.programs["high_volume"].written_for == "advanced"
    assert staff.programs["upper_lower"].written_for == "intermediate"


def test_loading_makes_sets_and_asks_for_recompute(library, couple):
    call_command("load_demo")
    assert Client.objects.count() == len(COUPLE)
    assert SetLog.objects.filter(unit="lb").exists()
    assert Session.objects.filter(date__gte=dt.datetime.now(dt.UTC).date() + dt.timedelta(days=1)).count() == 0
    for client in Client.objects.all():
        assert client.sessions.exists()
        assert RecomputeRequest.objects.filter(client=client).exists()


def test_a_block_that_ramps_is_fitted_to_clients_and_changed_once_since(library):
    today = dt.datetime.now(dt.UTC).date()
    monday = today - dt.timedelta(days=today.weekday())
    staff = staff_get_or_create(monday)
    coach = staff.coaches["Ines Valdarno"].user
    greta = next(person for person in PEOPLE if person.name.startswith("Greta"))
    client_create(replace(greta, weeks=2), staff, monday, seed=7)
    program = write_fitted(staff, coach, monday)
    assert write_fitted(staff, coach, monday) is None
    [block] = document_from_json(program.document).blocks
    assert block.ramp is not None
    assert [week.deload for week in block.weeks] == [False] * 4 + [True]
    [copy] = program.assignments.all()
    assert "swap" in set(copy.adaptations.values_list("kind", flat=True))
    assert copy.revisions.get().sessions.exists()
    assert copy.program_version == program.version


def test_a_week_is_drafted_once_within_the_gap_and_made_a_program(library):
    today = dt.datetime.now(dt.UTC).date()
    staff = staff_get_or_create(today)
    coach = staff.coaches["Ines Valdarno"].user
    program = write_drafted(staff, coach)
    assert write_drafted(staff, coach) is None
    run = DraftRun.objects.get(program=program)
    # Stopped by the gap and not by the clock: every demo has the same week.
    assert run.result["ended"] == "within_gap"
    slots = [slot for day in run.result["days"] for slot in day["slots"]]
    assert len(slots) >= 8
    assert all(slot["needs"] for slot in slots)


def test_one_sided_exercises_are_logged_side_by_side(library, couple):
    call_command("load_demo")
    one_sided = Exercise.objects.get(slug="rear-foot-raised-split-squat")
    sides = SetLog.objects.filter(exercise__laterality="single").values_list("side", flat=True)
    assert set(sides) <= {"left", "right"}
    assert one_sided.laterality == "single"


def test_second_start_does_nothing_twice(library, couple):
    call_command("load_demo")
    before = SetLog.objects.count()
    call_command("load_demo")
    assert SetLog.objects.count() == before


def test_a_broken_start_goes_on_with_the_next_client(library, couple, monkeypatch):
    def broken(*args):
        raise KeyboardInterrupt

    with monkeypatch.context() as patched:
        patched.setattr("demo.practice.client.write_diary", broken)
        with pytest.raises(KeyboardInterrupt):
            call_command("load_demo")
    assert not Client.objects.exists()
    call_command("load_demo")
    assert Client.objects.count() == len(COUPLE)


def test_printed_password_opens_the_door(library, couple, client):
    call_command("load_demo")
    assert User.objects.get(email="marit@demo.example").check_password(people.PASSWORD)


def test_demo_refuses_production(settings, db):
    settings.PRODUCTION = True
    with pytest.raises(CommandError, match="production"):
        call_command("load_demo")
