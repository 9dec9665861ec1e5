"""Two requests at the same moment: every set exactly once, nothing refused that should not be."""

import datetime as dt
import uuid
from concurrent.futures import ThreadPoolExecutor

import pytest
from django.db import connection, connections
from django.utils import timezone

from logbook.models import CheckIn, Operation, Session, SetLog
from logbook.services.operations import operation_outcome
from logbook.services.sessions import session_id_for
from tests.logbook.factories import make_exercise, make_planned, op, set_data

ITEMS = dict.fromkeys(("fatigue", "sleep", "soreness", "stress", "mood"), 4)


@pytest.fixture
def at_once(world, transactional_db):
    """Carry out operations of one client in threads of their own, each with its own connection."""
    if connection.vendor == "sqlite" and "memory" in str(connection.settings_dict["NAME"]):
        pytest.skip("an in-memory SQLite has one connection; scripts/test runs this on PostgreSQL")

    def run(*operations):
        def one(operation):
            try:
                return operation_outcome(
                    client=world.client, operation=operation, now=timezone.now(), announce=False
                ).status
            finally:
                connections.close_all()

        with ThreadPoolExecutor(len(operations)) as threads:
            return sorted(threads.map(one, operations))

    return run


def test_same_operation_sent_eight_times_is_saved_once(world, at_once):
    start = op("session.start", timezone.now(), session=uuid.uuid4())
    assert at_once(*[start] * 8) == ["replayed"] * 7 + ["saved"]
    assert (Session.objects.count(), Operation.objects.count()) == (1, 1)


def test_two_devices_begin_the_same_planned_session(world, at_once):
    curl = make_exercise("curl", "barbell")
    planned = make_planned(world.client, timezone.now().date(), {"exercise": curl})
    session = session_id_for(planned.pk)
    starts = [op("session.start", timezone.now(), session=session, planned=planned.pk) for _ in range(6)]
    assert at_once(*starts) == ["saved"] * 6
    assert Session.objects.get().planned == planned


def test_two_devices_edit_the_same_set_and_check_in_on_the_same_day(world, at_once):
    curl = make_exercise("curl", "barbell")
    session = uuid.uuid4()
    begin = timezone.now()
    data = set_data(session, curl)
    at_once(op("session.start", begin, session=session))
    at_once(op("set.record", begin, **data))
    edits = [
        op("set.edit", begin + dt.timedelta(seconds=n), set=data["set"], load=n, unit="kg", reps=n, rir=None)
        for n in range(1, 7)
    ]
    assert at_once(*edits, *[op("checkin.record", begin, **ITEMS) for _ in range(6)]) == ["saved"] * 12
    row = SetLog.objects.get()
    assert (row.load, row.reps) == (6, 6)
    assert row.history.count() == 6
    assert CheckIn.objects.count() == 1
