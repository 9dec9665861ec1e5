"""A set far from those before is marked in words; a coach may write it right, and what was typed is kept."""

import datetime as dt
import uuid

import pytest
from django.utils import timezone

from logbook.models import RecomputeRequest, SetHistory, SetLog
from tests.logbook.conftest import signed_in
from tests.logbook.factories import NOW

MARK = "far from 40\u00a0kg before: a slip?"
RIGHT = {"load": "40", "unit": "kg", "reps": "10", "rir": "1"}


@pytest.fixture
def slipped(gym):
    """A curl at 40 kg last week; today ten times as much, and in the second set what was meant."""
    gym.log(gym.start(NOW - dt.timedelta(days=7)), at=NOW - dt.timedelta(days=7), load=40)
    gym.session = gym.start()
    gym.wrong = gym.log(gym.session, load=400)
    gym.log(gym.session, number=2, load=42.5)
    gym.url, gym.correct = f"/train/done/{gym.session}/", f"/sets/{gym.wrong}/correct/"
    gym.desk = signed_in(gym.coach)
    return gym


def test_only_the_slip_is_marked_for_the_coach_and_for_the_client(slipped, phone):
    for browser in (slipped.desk, phone):
        assert browser.get(slipped.url).text.count(MARK) == 1


def test_a_slip_kept_in_every_set_of_the_session_is_still_marked(slipped):
    SetLog.objects.filter(session=slipped.session).update(load=400, load_kg=400)
    assert slipped.desk.get(slipped.url).text.count(MARK) == 2


def test_what_was_typed_is_kept_beside_the_correction_and_the_client_sees_whose_it_is(slipped, phone):
    assert slipped.correct in slipped.desk.get(slipped.url).text
    assert slipped.correct not in phone.get(slipped.url).text
    assert slipped.desk.get(slipped.correct).status_code == 200
    assert slipped.desk.post(slipped.correct, RIGHT).status_code == 302
    row = SetLog.objects.get(pk=slipped.wrong)
    assert (row.load_kg, row.corrected_by, row.number, row.side) == (40, slipped.coach, 1, "both")
    assert SetHistory.objects.get(set=row).values["load"] == 400
    assert RecomputeRequest.objects.filter(client=slipped.client, reason="set.edit").exists()
    for page in (slipped.desk.get(slipped.url).text, phone.get(f"/train/session/{slipped.session}/").text):
        assert f"corrected by {slipped.coach}" in page
    assert MARK not in slipped.desk.get(slipped.url).text


def test_what_the_client_says_afterwards_is_theirs_again(slipped):
    slipped.desk.post(slipped.correct, RIGHT)
    later = timezone.now() + dt.timedelta(minutes=1)
    slipped.apply("set.edit", later, now=later, set=slipped.wrong, load=41, unit="kg", reps=10, rir=1)
    row = SetLog.objects.get(pk=slipped.wrong)
    assert (row.load, row.corrected_by) == (41, None)


def test_a_correction_that_is_sent_twice_does_not_claim_what_the_client_said_between(slipped):
    sent = RIGHT | {"op": str(uuid.uuid4())}
    slipped.desk.post(slipped.correct, sent)
    later = timezone.now() + dt.timedelta(minutes=1)
    slipped.apply("set.edit", later, now=later, set=slipped.wrong, load=41, unit="kg", reps=10, rir=1)
    slipped.desk.post(slipped.correct, sent)
    row = SetLog.objects.get(pk=slipped.wrong)
    assert (row.load, row.corrected_by) == (41, None)


def test_a_phone_whose_clock_is_ahead_does_not_outdo_the_correction(slipped):
    ahead = timezone.now() + dt.timedelta(minutes=3)
    slipped.apply("set.edit", ahead, now=ahead, set=slipped.wrong, load=401, unit="kg", reps=10, rir=1)
    assert slipped.desk.post(slipped.correct, RIGHT).status_code == 302
    row = SetLog.objects.get(pk=slipped.wrong)
    assert (row.load, row.corrected_by) == (40, slipped.coach)


def test_what_the_client_deleted_is_not_brought_back(slipped):
    slipped.apply("set.delete", timezone.now(), now=timezone.now(), set=slipped.wrong)
    for answer in (slipped.desk.get(slipped.correct), slipped.desk.post(slipped.correct, RIGHT)):
        assert answer.url == slipped.url
    assert SetLog.objects.get(pk=slipped.wrong).deleted_at
    assert "has deleted this set meanwhile" in slipped.desk.get(slipped.url).text


def test_a_warm_up_set_may_be_light_after_its_correction_too(slipped):
    SetLog.objects.filter(pk=slipped.wrong).update(warm_up=True)
    assert slipped.desk.post(slipped.correct, RIGHT | {"load": "10"}).status_code == 302
    row = SetLog.objects.get(pk=slipped.wrong)
    assert (row.load, row.warm_up) == (10, True)


def test_nonsense_is_said_beside_its_field_and_nothing_is_changed(slipped):
    answer = slipped.desk.post(slipped.correct, RIGHT | {"load": "-4"})
    assert answer.status_code == 422
    assert "greater than or equal to 0" in answer.text
    row = SetLog.objects.get(pk=slipped.wrong)
    assert (row.load, row.corrected_by) == (400, None)
    assert not SetHistory.objects.exists()


def test_a_correction_that_is_far_off_itself_is_asked_about_and_taken_when_confirmed(slipped):
    asked = slipped.desk.post(slipped.correct, RIGHT | {"load": "4"})
    assert asked.status_code == 422
    assert "Really? Before it was 40 kg" in asked.text
    assert asked.text.count("Yes, this load is right") == 1, "a yes beside it would speak of the client's load"
    assert f"/sets/{slipped.wrong}/right/" not in asked.text
    assert slipped.desk.post(slipped.correct, RIGHT | {"load": "4", "confirmed": "1"}).status_code == 302


def test_nobody_but_the_coach_may(slipped, phone):
    assert phone.post(slipped.correct, RIGHT).status_code == 403
    for user in (slipped.colleague, slipped.outsider, slipped.other_client.user, slipped.nobody):
        assert signed_in(user).post(slipped.correct, RIGHT).status_code == 404
    assert SetLog.objects.get(pk=slipped.wrong).load == 400
