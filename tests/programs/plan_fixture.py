"""A plan that names one exercise."""

import datetime as dt

import pytest

from programs.models import Assignment, PlannedSession, PlannedSlot


@pytest.fixture
def plan_with(world):
    """`plan_with(exercise)` plans it for the client on two days and returns the first of them."""

    def make(exercise):
        first = dt.date(2026, 3, 2)
        assignment = Assignment.objects.create(
            client=world.client, program_version=1, name="Plan", starts_on=first, weekdays=[0], created_by=world.coach
        )
        for week in (1, 2):
            session = PlannedSession.objects.create(
                assignment=assignment,
                client=world.client,
                date=first + dt.timedelta(days=7 * (week - 1)),
                day_name="Legs",
                block_name="Block",
                block_number=1,
                week_number=week,
                day_number=1,
            )
            PlannedSlot.objects.create(
                session=session,
                position=1,
                exercise=exercise,
                sets=3,
                reps_min=8,
                reps_max=12,
                rir_min=1,
                rir_max=2,
                rest_s=120,
            )
        return first

    return make
