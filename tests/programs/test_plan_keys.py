"""What was assigned before sessions knew their origin learns it from the version it was copied from."""

import datetime as dt
from importlib import import_module

import pytest
from django.apps import apps

from programs.models import Assignment, PlannedSession, PlannedSlot
from programs.services.assignment_make import program_assign
from tests.programs.factories import make_library, make_program

name_origins = import_module("programs.migrations.0003_plan_keys").name_origins
SESSION = ("day_key", "week_key", "program_version")


@pytest.fixture
def assignment(world):
    program = make_program(world, make_library(), weeks=2)
    known = {"starts_on": dt.date(2026, 11, 30), "weekdays": [0, 3], "assigned_by": world.coach}
    return program_assign(program=program, clients=[world.client], **known)[0]


def keys():
    return list(PlannedSession.objects.values_list(*SESSION)), list(PlannedSlot.objects.values_list("slot_key"))


def forget():
    PlannedSession.objects.update(day_key="", week_key="", program_version=None)
    PlannedSlot.objects.update(slot_key="")


def test_a_new_copy_carries_the_documents_keys(assignment):
    assert list(assignment.sessions.values_list(*SESSION))[:2] == [("w1d1", "w1", 1), ("w1d2", "w1", 1)]
    assert list(assignment.sessions.first().slots.values_list("slot_key", flat=True)) == ["w1s1", "w1s2"]


def test_an_older_copy_gets_the_same_keys(assignment):
    made = keys()
    forget()
    name_origins(apps, None)
    assert keys() == made


def test_a_copy_whose_version_is_gone_stays_without(assignment):
    forget()
    assignment.program.revisions.all().delete()
    name_origins(apps, None)
    assert set(keys()[0]) == {("", "", None)}


def test_a_session_that_no_longer_has_the_days_slots_keeps_them_unnamed(assignment):
    forget()
    first = Assignment.objects.get().sessions.first()
    first.slots.last().delete()
    name_origins(apps, None)
    first.refresh_from_db()
    assert first.day_key == "w1d1"
    assert set(first.slots.values_list("slot_key", flat=True)) == {""}
