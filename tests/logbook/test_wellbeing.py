"""Check-in, body mass and pain reports."""

import datetime as dt
import uuid

import pytest

from logbook.models import BodyMass, CheckIn, PainReport
from logbook.operations.refused import Refused
from tests.logbook.factories import NOW

ANSWERS = {"fatigue": 3, "sleep": 4, "soreness": 2, "stress": 3, "mood": 5}


def code_of(call, *args, **kwargs) -> str:
    with pytest.raises(Refused) as refusal:
        call(*args, **kwargs)
    return refusal.value.code


def test_check_in_is_kept_with_its_sum(gym):
    result = gym.apply("checkin.record", **ANSWERS, sore_groups=["biceps", "biceps"])["check_in"]
    assert (result["total"], result["sore_groups"], result["date"]) == (17, ["biceps"], "2024-05-15")


@pytest.mark.parametrize(("value", "total"), [(5, 25), (1, 5), (3, 15)])
def test_sum_runs_from_5_to_25(gym, value, total):
    """The published check of the five items."""
    assert gym.apply("checkin.record", **dict.fromkeys(ANSWERS, value))["check_in"]["total"] == total


def test_second_check_in_of_a_day_is_an_edit_that_keeps_the_earlier(gym):
    gym.apply("checkin.record", **ANSWERS)
    gym.apply("checkin.record", gym.later(), **ANSWERS | {"mood": 1})
    row = CheckIn.objects.get()
    assert row.mood == 1
    assert (row.earlier[0]["values"]["mood"], row.earlier[0]["won"]) == (5, True)


def test_older_check_in_that_arrives_late_is_kept_and_does_not_stand(gym):
    gym.apply("checkin.record", gym.later(), **ANSWERS)
    result = gym.apply("checkin.record", NOW, **ANSWERS | {"mood": 1})
    assert result["won"] is False
    assert CheckIn.objects.get().mood == 5


def test_day_of_a_check_in_is_the_clients_own(gym):
    gym.client.user.time_zone = "Pacific/Auckland"
    assert gym.apply("checkin.record", **ANSWERS)["check_in"]["date"] == "2024-05-16"


def test_check_in_for_tomorrow_is_refused(gym):
    tomorrow = (NOW.date() + dt.timedelta(days=1)).isoformat()
    assert code_of(gym.apply, "checkin.record", **ANSWERS, date=tomorrow) == "in_the_future"
    assert code_of(gym.apply, "checkin.record", **ANSWERS, date="1999-12-31") == "too_long_ago"


@pytest.mark.parametrize(
    ("values", "code"),
    [
        ({"mood": 0}, "min_value"),
        ({"mood": 6}, "max_value"),
        ({"mood": 2.5}, "not_whole"),
        ({"mood": None}, "null"),
        ({"sore_groups": ["wings"]}, "unknown_muscle_group"),
        ({"sore_groups": "biceps"}, "not_a_list"),
        ({"sore_groups": [1]}, "not_text"),
        ({"date": 20240515}, "invalid"),
        ({"date": "15.5.2024"}, "invalid"),
    ],
)
def test_answers_that_cannot_be_are_refused(gym, values, code):
    assert code_of(gym.apply, "checkin.record", **ANSWERS | values) == code
    assert not CheckIn.objects.exists()


def test_body_mass_stays_in_its_unit_and_an_edit_keeps_the_earlier(gym):
    gym.apply("bodymass.record", mass=180, unit="lb")
    gym.apply("bodymass.record", gym.later(), mass=82, unit="kg")
    row = BodyMass.objects.get()
    assert (row.mass, row.unit, row.mass_kg) == (82, "kg", 82)
    assert row.earlier[0]["values"]["mass_kg"] == pytest.approx(81.6466266)


@pytest.mark.parametrize("mass", [19.9, 400.1, -70, "70"])
def test_body_mass_that_cannot_be_is_refused(gym, mass):
    assert code_of(gym.apply, "bodymass.record", mass=mass, unit="kg") in {"mass_out_of_range", "not_a_number"}


@pytest.mark.parametrize(("score", "stop"), [(0, False), (5, False), (6, True), (10, True)])
def test_pain_over_five_stops_the_exercise(gym, score, stop):
    result = gym.apply("pain.report", report=uuid.uuid4(), site="elbow", side="left", score=score)
    assert result["pain_report"]["stop"] is stop
    assert PainReport.objects.get().score == score


def test_pain_report_needs_own_session_and_known_exercise(gym):
    theirs = uuid.uuid4()
    gym.apply("session.start", client=gym.other_client, session=theirs)
    report = {"site": "knee", "score": 4}
    assert code_of(gym.apply, "pain.report", report=uuid.uuid4(), session=theirs, **report) == "unknown_session"
    assert code_of(gym.apply, "pain.report", report=uuid.uuid4(), exercise=10**9, **report) == "unknown_exercise"
    assert code_of(gym.apply, "pain.report", report=uuid.uuid4(), site="tail", score=4) == "invalid_choice"
    assert code_of(gym.apply, "pain.report", report=uuid.uuid4(), site="knee", score=11) == "max_value"
    assert not PainReport.objects.exists()


def test_pain_report_id_is_used_once(gym):
    report = uuid.uuid4()
    gym.apply("pain.report", report=report, site="knee", score=4)
    assert code_of(gym.apply, "pain.report", report=report, site="hip", score=2) == "id_not_usable"


def test_pain_reported_weeks_later_asks_for_the_sessions_own_week(gym):
    session = gym.start()
    gym.client.recompute_requests.all().delete()
    gym.apply("pain.report", gym.later(60 * 24 * 15), report=uuid.uuid4(), session=session, site="knee", score=3)
    assert [row.since for row in gym.client.recompute_requests.all()] == [NOW.date()]
