"""A set is kept as typed; the later edit by the client's clock stands; nothing typed is lost."""

import datetime as dt
import uuid

import pytest

from logbook.models import SetHistory, SetLog
from logbook.operations.refused import Refused
from programs.models import Exercise
from tests.logbook.factories import NOW, make_exercise, make_planned, set_data

VALUES = {"unit": "kg", "reps": 10, "rir": 1}


def code_of(call, *args, **kwargs) -> str:
    with pytest.raises(Refused) as refusal:
        call(*args, **kwargs)
    return refusal.value.code


def test_load_stays_in_the_unit_it_was_typed_in_with_kilograms_beside_it(gym):
    gym.log(gym.start(), load=135, unit="lb")
    row = SetLog.objects.get()
    assert (row.load, row.unit) == (135, "lb")
    assert row.load_kg == pytest.approx(61.23496995)


def test_first_result_says_what_was_saved(gym):
    session = gym.start()
    result = gym.apply("set.record", **set_data(session, gym.curl, rir=None, warm_up=True))["set"]
    assert (result["load_kg"], result["rir"], result["warm_up"], result["deleted"]) == (40, None, True, False)


@pytest.mark.parametrize(
    ("values", "code"),
    [
        ({"load": -0.5}, "min_value"),
        ({"load": 1000.5}, "load_too_high"),
        ({"load": 2205, "unit": "lb"}, "load_too_high"),
        ({"load": 1001, "confirmed": True}, "load_too_high"),
        ({"load": 600.5}, "load_needs_confirming"),
        ({"load": float("nan")}, "not_finite"),
        ({"load": float("inf")}, "not_finite"),
        ({"load": 10**400}, "not_finite"),
        ({"load": "40"}, "not_a_number"),
        ({"load": True}, "not_a_number"),
        ({"load": None}, "null"),
        ({"load": [40]}, "not_a_number"),
        ({"unit": "st"}, "invalid_choice"),
        ({"unit": 5}, "invalid_choice"),
        ({"reps": -1}, "min_value"),
        ({"reps": 101}, "max_value"),
        ({"reps": 8.5}, "not_whole"),
        ({"reps": "8"}, "not_whole"),
        ({"reps": True}, "not_whole"),
        ({"rir": -0.5}, "min_value"),
        ({"rir": 10.5}, "max_value"),
        ({"rir": 1.2}, "not_halves"),
        ({"rir": float("nan")}, "not_finite"),
        ({"rir": "1"}, "not_a_number"),
        ({"number": 0}, "min_value"),
        ({"side": "up"}, "invalid_choice"),
        ({"warm_up": "yes"}, "not_a_flag"),
        ({"warm_up": 1}, "not_a_flag"),
        ({"note": "\ud800"}, "surrogate_characters_not_allowed"),
        ({"note": "x" * 301}, "max_length"),
        ({"exercise": "curl"}, "not_whole"),
        ({"exercise": 10**30}, "max_value"),
        ({"exercise": 10**9}, "unknown_exercise"),
        ({"slot": 10**9}, "unknown_slot"),
        ({"set": "not-a-uuid"}, "invalid"),
        ({"set": 12}, "invalid"),
        ({"performed_at": "2024-05-15T17:00:00+00:00"}, "in_the_future"),
        ({"performed_at": "yesterday"}, "not_a_time"),
    ],
)
def test_values_that_cannot_be_are_refused_and_nothing_is_saved(gym, values, code):
    session = gym.start()
    assert code_of(gym.apply, "set.record", **set_data(session, gym.curl) | values) == code
    assert not SetLog.objects.exists()


@pytest.mark.parametrize("values", [{"load": 0}, {"load": 600}, {"reps": 0}, {"reps": 100}, {"rir": 0.5}, {"rir": 10}])
def test_values_at_the_edge_are_saved(gym, values):
    gym.log(gym.start(), **values)
    assert SetLog.objects.count() == 1


def test_very_high_load_is_saved_once_it_is_confirmed(gym):
    gym.log(gym.start(), load=1000, confirmed=True)
    assert SetLog.objects.get().load_kg == 1000


def test_one_sided_exercise_needs_a_side(gym):
    session = gym.start()
    assert code_of(gym.log, session, gym.row) == "side_missing"
    gym.log(session, gym.row, side="left")
    gym.log(session, gym.row, side="right")
    assert {row.side for row in SetLog.objects.all()} == {"left", "right"}


def test_side_cannot_be_edited_away(gym):
    identity = gym.log(gym.start(), gym.row, side="left")
    assert code_of(gym.apply, "set.edit", gym.later(), set=identity, load=20, **VALUES, side="both") == "side_missing"


def test_exercise_of_another_practice_is_unknown(gym):
    Exercise.objects.filter(pk=gym.row.pk).update(practice=gym.outside_client.practice)
    assert code_of(gym.log, gym.start(), gym.row, side="left") == "unknown_exercise"


def test_slot_of_another_client_is_unknown(gym):
    other = make_planned(gym.other_client, NOW.date(), {"exercise": gym.curl})
    assert code_of(gym.log, gym.start(), slot=other.slots.get().pk) == "unknown_slot"


def test_edit_keeps_the_earlier_values(gym):
    identity = gym.log(gym.start())
    gym.apply("set.edit", gym.later(), set=identity, load=42.5, **VALUES)
    row, entry = SetLog.objects.get(), SetHistory.objects.get()
    assert row.load == 42.5
    assert (entry.values["load"], entry.won, entry.edited_at) == (40, True, NOW)


def test_late_arriving_older_edit_is_kept_and_does_not_stand(gym):
    identity = gym.log(gym.start())
    gym.apply("set.edit", gym.later(10), set=identity, load=50, **VALUES)
    result = gym.apply("set.edit", gym.later(5), set=identity, load=45, **VALUES)
    assert (result["won"], result["set"]["load"]) == (False, 50)
    assert [(h.values["load"], h.won) for h in SetHistory.objects.all()] == [(40, True), (45, False)]


def test_edit_that_leaves_note_out_keeps_it(gym):
    identity = gym.log(gym.start(), note="left elbow")
    gym.apply("set.edit", gym.later(), set=identity, load=42.5, **VALUES)
    assert SetLog.objects.get().note == "left elbow"


def test_deleted_set_keeps_its_values_and_a_later_edit_brings_it_back(gym):
    identity = gym.log(gym.start())
    gym.apply("set.delete", gym.later(1), set=identity)
    row = SetLog.objects.get()
    assert (row.deleted_at, row.load) == (gym.later(1), 40)
    gym.apply("set.edit", gym.later(2), set=identity, load=40, **VALUES)
    assert SetLog.objects.get().deleted_at is None
    assert [h.values["deleted"] for h in SetHistory.objects.all()] == [False, True]


def test_deletion_older_than_an_edit_does_not_stand(gym):
    identity = gym.log(gym.start())
    gym.apply("set.edit", gym.later(2), set=identity, load=45, **VALUES)
    gym.apply("set.delete", gym.later(1), set=identity)
    assert SetLog.objects.get().deleted_at is None
    assert SetHistory.objects.filter(won=False).get().values["deleted"] is True


def test_record_that_arrives_after_its_edit_does_not_undo_it(gym):
    """A phone that sends the record again under a new operation id, after the edit."""
    session = gym.start()
    data = set_data(session, gym.curl)
    gym.apply("set.record", **data)
    gym.apply("set.edit", gym.later(), set=data["set"], load=45, **VALUES)
    result = gym.apply("set.record", **data)
    assert (result["won"], SetLog.objects.get().load) == (False, 45)


def test_set_of_another_client_is_refused_like_one_that_does_not_exist(gym):
    session = uuid.uuid4()
    gym.apply("session.start", client=gym.other_client, session=session)
    theirs = set_data(session, gym.curl)
    gym.apply("set.record", client=gym.other_client, **theirs)

    def answers(identity):
        for kind, extra in (("set.edit", {"load": 1, **VALUES}), ("set.delete", {})):
            with pytest.raises(Refused) as refusal:
                gym.apply(kind, gym.later(), set=identity, **extra)
            yield refusal.value.code, refusal.value.title, refusal.value.status

    assert list(answers(theirs["set"])) == list(answers(uuid.uuid4()))
    mine = set_data(gym.start(), gym.curl, set=theirs["set"])
    assert code_of(gym.apply, "set.record", **mine) == "id_not_usable"
    assert SetLog.objects.get().client == gym.other_client


def test_set_cannot_move_to_another_session(gym):
    identity = gym.log(gym.start())
    assert code_of(gym.log, gym.start(), set=identity, at=gym.later()) == "id_not_usable"


def test_set_typed_in_while_training_keeps_its_minute(gym):
    session = gym.start()
    gym.log(session, at=NOW + dt.timedelta(hours=1, seconds=7))
    assert SetLog.objects.get().performed_at == NOW + dt.timedelta(hours=1, seconds=7)


def test_held_seconds_and_steps_may_be_more_than_100(gym):
    plank = make_exercise("plank", "band", rep_unit="seconds")
    gym.log(gym.start(), plank, reps=120, load=0)
    assert SetLog.objects.get().reps == 120
    assert code_of(gym.log, gym.start(), plank, reps=601, load=0) == "max_value"
