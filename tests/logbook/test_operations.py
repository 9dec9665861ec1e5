"""One operation is carried out once, or refused with nothing saved."""

import datetime as dt
import uuid

import pytest
from django.db import IntegrityError

from logbook.models import Operation, RecomputeRequest, Session, SetLog
from logbook.operations.refused import Refused
from logbook.services import operations
from logbook.services.operations import operation_apply, operation_outcome
from tests.logbook.factories import NOW, op, set_data

SESSION = uuid.uuid4()


def test_first_result_is_returned_at_every_replay(gym):
    start = op("session.start", session=SESSION)
    first = operation_apply(client=gym.client, operation=start, now=NOW)
    gym.apply("session.finish", gym.later(40), session=SESSION, session_rpe=7, minutes=40)
    again = operation_outcome(client=gym.client, operation=start, now=gym.later(60))
    assert again.status == "replayed"
    assert again.result == first
    assert again.result["session"]["finished_at"] is None


def test_replay_saves_nothing_twice(gym):
    session = gym.start()
    record = op("set.record", **set_data(session, gym.curl))
    for _ in range(3):
        operation_apply(client=gym.client, operation=record, now=NOW)
    assert SetLog.objects.count() == 1
    assert RecomputeRequest.objects.count() == 2  # the start and the set


def test_replay_of_an_altered_operation_returns_the_first_result(gym):
    session = gym.start()
    data = set_data(session, gym.curl)
    record = op("set.record", **data)
    first = operation_apply(client=gym.client, operation=record, now=NOW)
    altered = {**record, "data": {**record["data"], "reps": 3}}
    assert operation_apply(client=gym.client, operation=altered, now=NOW) == first
    assert SetLog.objects.get().reps == 10


def test_operation_of_another_client_is_refused_without_its_result(gym):
    start = op("session.start", session=SESSION)
    operation_apply(client=gym.client, operation=start, now=NOW)
    with pytest.raises(Refused) as refusal:
        operation_apply(client=gym.other_client, operation=start, now=NOW)
    assert refusal.value.code == "id_not_usable"
    assert str(SESSION) not in str(vars(refusal.value))


def test_refused_operation_is_not_stored_and_can_be_mended_under_its_id(gym):
    session = gym.start()
    identity = uuid.uuid4()
    data = set_data(session, gym.curl, load=-5)
    with pytest.raises(Refused):
        gym.apply("set.record", id=identity, **data)
    assert not Operation.objects.filter(pk=identity).exists()
    gym.apply("set.record", id=identity, **{**data, "load": 5})
    assert SetLog.objects.get().load == 5


def test_log_and_recompute_request_are_saved_together_or_not_at_all(gym, monkeypatch):
    def fail(**kwargs):
        raise RuntimeError("power cut")

    monkeypatch.setattr(operations, "recompute_request", fail)
    with pytest.raises(RuntimeError):
        gym.apply("session.start", session=SESSION)
    assert (Session.objects.count(), Operation.objects.count()) == (0, 0)


def test_listener_is_told_after_the_commit(gym, django_capture_on_commit_callbacks):
    from logbook.signals import recompute_requested

    told = []

    def listener(sender, client_id, **kwargs):
        told.append(client_id)

    recompute_requested.connect(listener)
    try:
        with django_capture_on_commit_callbacks(execute=False) as waiting:
            gym.apply("session.start", session=SESSION)
        assert told == []
        for callback in waiting:
            callback()
        assert told == [gym.client.pk]
    finally:
        recompute_requested.disconnect(listener)


def test_request_names_the_day_of_the_session_in_the_clients_zone(gym):
    gym.client.user.time_zone = "Pacific/Auckland"
    gym.apply("session.start", dt.datetime(2024, 5, 14, 13, 0, tzinfo=dt.UTC), session=SESSION)
    assert RecomputeRequest.objects.get().since == dt.date(2024, 5, 15)


def test_changed_plan_asks_for_a_recompute(gym):
    from programs.signals import plan_changed

    plan_changed.send(sender=None, client_id=gym.client.pk, since=dt.date(2024, 5, 1))
    request = RecomputeRequest.objects.get()
    assert (request.client_id, request.since, request.reason) == (gym.client.pk, dt.date(2024, 5, 1), "plan")


def test_same_operation_arriving_twice_at_once_is_answered_with_the_first_result(gym, monkeypatch):
    """The first look finds nothing, then the other request commits: the clash of ids must end in a replay."""
    start = op("session.start", session=SESSION)
    first = operation_apply(client=gym.client, operation=start, now=NOW)
    real, looks = operations._first_result, []

    def blind_at_first(*args):
        looks.append(args)
        return real(*args) if len(looks) > 1 else None

    monkeypatch.setattr(operations, "_first_result", blind_at_first)
    outcome = operation_outcome(client=gym.client, operation=start, now=NOW)
    assert (outcome.status, outcome.result, len(looks)) == ("replayed", first, 2)


def test_clash_that_does_not_go_away_is_not_swallowed(gym, monkeypatch):
    def clash(*args):
        raise IntegrityError("always")

    monkeypatch.setattr(operations, "_carry_out", clash)
    with pytest.raises(IntegrityError):
        gym.apply("session.start", session=SESSION)


@pytest.mark.parametrize(
    ("operation", "code"),
    [
        (None, "not_an_object"),
        ([], "not_an_object"),
        ("session.start", "not_an_object"),
        ({}, "required"),
        ({"id": 5, "kind": "session.start", "at": NOW.isoformat(), "data": {}}, "invalid"),
        ({"id": str(SESSION), "kind": 7, "at": NOW.isoformat(), "data": {}}, "not_text"),
        ({"id": str(SESSION), "kind": "session.start", "at": 0, "data": {}}, "not_a_time"),
        ({"id": str(SESSION), "kind": "session.start", "at": "2024-05-15T16:00:00", "data": {}}, "no_offset"),
        ({"id": str(SESSION), "kind": "session.start", "at": "0001-01-01T00:00:00+14:00", "data": {}}, "not_a_time"),
        ({"id": str(SESSION), "kind": "session.fly", "at": NOW.isoformat(), "data": {}}, "unknown_kind"),
        ({"id": str(SESSION), "kind": "session.start", "at": NOW.isoformat()}, "not_an_object"),
        ({"id": str(SESSION), "kind": "session.start", "at": NOW.isoformat(), "data": []}, "not_an_object"),
        ({"id": str(SESSION), "kind": "session.start", "at": NOW.isoformat(), "data": {}}, "required"),
    ],
)
def test_what_is_not_an_operation_is_refused(gym, operation, code):
    with pytest.raises(Refused) as refusal:
        operation_apply(client=gym.client, operation=operation, now=NOW)
    assert refusal.value.code == code
    assert not Operation.objects.exists()


@pytest.mark.parametrize(
    ("at", "code"),
    [
        (NOW + dt.timedelta(minutes=5, seconds=1), "in_the_future"),
        (dt.datetime(1999, 12, 31, 23, 59, tzinfo=dt.UTC), "too_long_ago"),
    ],
)
def test_clock_that_cannot_be_right_is_refused(gym, at, code):
    with pytest.raises(Refused) as refusal:
        gym.apply("session.start", at, now=NOW, session=SESSION)
    assert refusal.value.code == code


def test_clock_five_minutes_ahead_is_believed(gym):
    gym.apply("session.start", NOW + dt.timedelta(minutes=5), now=NOW, session=SESSION)
    assert Session.objects.count() == 1
