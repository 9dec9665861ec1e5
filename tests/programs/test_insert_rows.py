"""Many rows at once: as the ORM would have saved them, and no constraint is passed over."""

import datetime as dt

import pytest
from django.db import IntegrityError, transaction

from programs.models import PlannedSession, PlannedSlot
from programs.services.assignment_make import program_assign
from programs.services.insert_rows import insert_rows
from tests.programs.factories import make_library, make_program

pytestmark = pytest.mark.django_db
MONDAY = dt.date(2026, 11, 30)


@pytest.fixture
def library(db):
    return make_library()


@pytest.fixture
def session(world, library):
    program = make_program(world, library)
    (plan,) = program_assign(
        program=program, clients=[world.client], starts_on=MONDAY, weekdays=[0, 3], assigned_by=world.coach
    )
    return plan.sessions.first()


def row(session, library, **fields):
    known = {"session_id": session.pk, "position": 9, "exercise_id": library.curl.pk, "sets": 3, "rest_s": 90}
    return {**known, "reps_min": 8, "reps_max": 12, "rir_min": 1, "rir_max": 2, **fields}


def values(one):
    return {field.attname: getattr(one, field.attname) for field in one._meta.concrete_fields if not field.primary_key}


def test_a_row_is_what_the_orm_would_have_saved(session, library):
    texts = {"note": 'keep "still"\tand\nbreathe \\N; %s', "tempo": "3-1-1-0", "weaker_first": True, "load_pct": 102.5}
    assert insert_rows(PlannedSlot, [row(session, library, **texts)]) == 1
    by_hand = session.slots.get(position=9)
    one = PlannedSlot.objects.create(**row(session, library, **texts, position=10))
    one.refresh_from_db()
    assert values(by_hand) == {**values(one), "position": 9}


def test_dates_are_of_their_fields_kind(session):
    told = {name: value for name, value in values(session).items() if name != "date"}
    insert_rows(PlannedSession, [{**told, "date": MONDAY + dt.timedelta(days=5)}])
    assert PlannedSession.objects.filter(date=MONDAY + dt.timedelta(days=5)).count() == 1


def insert_and_end(rows):
    """Insert as a transaction that ends: a key to nothing is found at its end."""
    insert_rows(PlannedSlot, rows)
    transaction.get_connection().check_constraints()


@pytest.mark.parametrize("wrong", [{"reps_min": 20}, {"exercise_id": 999999}, {"position": 1}, {"sets": None}])
def test_what_the_database_refuses_is_refused_and_nothing_of_it_stays(session, library, wrong):
    before = PlannedSlot.objects.count()
    with pytest.raises(IntegrityError), transaction.atomic():
        insert_and_end([row(session, library), row(session, library, **{"position": 10, **wrong})])
    assert PlannedSlot.objects.count() == before


def test_no_rows_are_no_question(session, django_assert_num_queries):
    with django_assert_num_queries(0):
        assert insert_rows(PlannedSlot, []) == 0
