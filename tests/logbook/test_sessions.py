"""A session begins once, keeps its day, and can be finished before all of its sets have arrived."""

import datetime as dt
import uuid

import pytest

from logbook.models import Session, SetLog, SlotSkip
from logbook.operations.refused import Refused
from logbook.services.sessions import session_id_for
from tests.logbook.factories import NOW, make_planned


def code_of(call, *args, **kwargs) -> str:
    with pytest.raises(Refused) as refusal:
        call(*args, **kwargs)
    return refusal.value.code


def test_session_across_midnight_stays_one_day(gym):
    gym.client.user.time_zone = "Europe/Berlin"
    gym.client.user.save()
    late = dt.datetime(2024, 5, 14, 21, 30, tzinfo=dt.UTC)  # 23:30 in Berlin
    session = gym.start(late)
    gym.log(session, at=late + dt.timedelta(minutes=45))
    gym.apply("session.finish", late + dt.timedelta(hours=1), session=session, session_rpe=6, minutes=60)
    assert Session.objects.get().date == dt.date(2024, 5, 14)
    assert SetLog.objects.get().session.date == dt.date(2024, 5, 14)


def test_second_device_meets_the_first_in_one_session(gym):
    planned = make_planned(gym.client, NOW.date(), {"exercise": gym.curl})
    shared = session_id_for(planned.pk)
    gym.start(gym.later(3), session=shared, planned=planned.pk)
    gym.start(NOW, session=shared, planned=planned.pk)
    session = Session.objects.get()
    assert (session.started_at, session.planned) == (NOW, planned)


def test_planned_session_begun_under_another_id_names_it(gym):
    planned = make_planned(gym.client, NOW.date(), {"exercise": gym.curl})
    first = gym.start(planned=planned.pk)
    with pytest.raises(Refused) as refusal:
        gym.start(session=uuid.uuid4(), planned=planned.pk)
    assert (refusal.value.code, refusal.value.members) == ("already_started", {"session": str(first)})


def test_ids_of_planned_sessions_differ_and_are_stable():
    assert session_id_for(1) == session_id_for(1) != session_id_for(2)


def test_planned_session_of_another_client_is_unknown(gym):
    planned = make_planned(gym.other_client, NOW.date(), {"exercise": gym.curl})
    mine = code_of(gym.start, planned=planned.pk)
    assert mine == code_of(gym.start, planned=10**9) == "unknown_planned_session"


def test_session_of_another_client_is_refused_like_one_that_does_not_exist(gym):
    theirs = uuid.uuid4()
    gym.apply("session.start", client=gym.other_client, session=theirs)

    def answers(session):
        for kind, extra in (
            ("session.finish", {"session_rpe": 5, "minutes": 30}),
            ("session.note", {"note": "x"}),
            ("session.discard", {}),
        ):
            with pytest.raises(Refused) as refusal:
                gym.apply(kind, session=session, **extra)
            yield refusal.value.code, refusal.value.title, refusal.value.status
        with pytest.raises(Refused) as refusal:
            gym.log(session)
        yield refusal.value.code, refusal.value.title, refusal.value.status

    assert list(answers(theirs)) == list(answers(uuid.uuid4()))
    assert code_of(gym.start, session=theirs) == "id_not_usable"
    assert Session.objects.get(pk=theirs).client == gym.other_client


def test_set_that_arrives_after_the_finish_is_saved(gym):
    session = gym.start()
    gym.apply("session.finish", gym.later(50), session=session, session_rpe=7.5, minutes=50)
    gym.log(session, at=gym.later(20))
    assert SetLog.objects.get().performed_at == gym.later(20)


def test_finishing_again_corrects_effort_and_keeps_the_earlier_and_the_end(gym):
    session = gym.start()
    gym.apply("session.finish", gym.later(50), session=session, session_rpe=7, minutes=50)
    gym.apply("session.finish", gym.later(90), session=session, session_rpe=8, minutes=55)
    row = Session.objects.get()
    assert (row.session_rpe, row.minutes, row.finished_at) == (8, 55, gym.later(50))
    assert row.earlier == [
        {"values": {"session_rpe": 7, "minutes": 50}, "edited_at": gym.later(50).isoformat(), "won": True}
    ]


def test_late_arriving_older_finish_is_kept_but_does_not_stand(gym):
    session = gym.start()
    gym.apply("session.finish", gym.later(90), session=session, session_rpe=8, minutes=55, note="second")
    gym.apply("session.finish", gym.later(50), session=session, session_rpe=7, minutes=50, note="first")
    row = Session.objects.get()
    assert (row.session_rpe, row.minutes, row.note, row.finished_at) == (8, 55, "second", gym.later(50))
    assert [entry["won"] for entry in row.earlier] == [False, False]


def test_note_does_not_undo_effort(gym):
    session = gym.start()
    gym.apply("session.finish", gym.later(50), session=session, session_rpe=7, minutes=50)
    gym.apply("session.note", gym.later(40), session=session, note="shoulder felt tight")
    row = Session.objects.get()
    assert (row.session_rpe, row.note) == (7, "shoulder felt tight")


def test_session_written_down_days_later_belongs_to_its_day(gym):
    monday = NOW - dt.timedelta(days=2)
    session = gym.start(NOW, started_at=monday.isoformat())
    gym.log(session, at=NOW)
    gym.apply("session.finish", NOW, session=session, session_rpe=5, minutes=45)
    row = Session.objects.get()
    assert (row.date, row.finished_at) == (monday.date(), monday + dt.timedelta(minutes=45))
    assert SetLog.objects.get().performed_at == monday


def test_session_cannot_begin_in_the_future(gym):
    tomorrow = (NOW + dt.timedelta(days=1)).isoformat()
    assert code_of(gym.apply, "session.start", session=uuid.uuid4(), started_at=tomorrow) == "in_the_future"


@pytest.mark.parametrize(
    ("values", "code"),
    [
        ({"session_rpe": 11, "minutes": 40}, "max_value"),
        ({"session_rpe": -1, "minutes": 40}, "min_value"),
        ({"session_rpe": 7.25, "minutes": 40}, "not_halves"),
        ({"session_rpe": "7", "minutes": 40}, "not_a_number"),
        ({"session_rpe": 7, "minutes": 0}, "min_value"),
        ({"session_rpe": 7, "minutes": 601}, "max_value"),
        ({"session_rpe": 7, "minutes": 40.5}, "not_whole"),
        ({"session_rpe": 7}, "required"),
        ({"session_rpe": 7, "minutes": 40, "note": 5}, "not_text"),
        ({"session_rpe": 7, "minutes": 40, "note": "a\x00b"}, "null_characters_not_allowed"),
    ],
)
def test_effort_and_minutes_that_cannot_be_are_refused(gym, values, code):
    session = gym.start()
    assert code_of(gym.apply, "session.finish", session=session, **values) == code
    assert Session.objects.get().finished_at is None


def test_empty_session_can_be_taken_back_and_a_used_one_cannot(gym):
    session = gym.start()
    gym.apply("session.discard", session=session)
    assert not Session.objects.exists()
    used = gym.start()
    identity = gym.log(used)
    gym.apply("set.delete", gym.later(), set=identity)
    assert code_of(gym.apply, "session.discard", session=used) == "session_not_empty"


def test_skipped_exercise_keeps_its_reason_and_can_be_taken_back(gym):
    planned = make_planned(gym.client, NOW.date(), {"exercise": gym.curl})
    slot = planned.slots.get()
    session = gym.start(planned=planned.pk)
    gym.apply("slot.skip", NOW, session=session, slot=slot.pk, reason="taken")
    assert (SlotSkip.objects.get().skipped, SlotSkip.objects.get().reason) == (True, "taken")
    gym.apply("slot.skip", gym.later(), session=session, slot=slot.pk, skipped=False)
    gym.apply("slot.skip", NOW, session=session, slot=slot.pk, reason="time")
    assert SlotSkip.objects.get().skipped is False


def test_slot_of_another_plan_cannot_be_skipped(gym):
    planned = make_planned(gym.client, NOW.date(), {"exercise": gym.curl})
    other = make_planned(gym.other_client, NOW.date(), {"exercise": gym.curl})
    session = gym.start(planned=planned.pk)
    assert code_of(gym.apply, "slot.skip", session=session, slot=other.slots.get().pk) == "unknown_slot"
