"""Whoever was asked about a load and said that it is right is believed: it is kept, and no mark stands beside it."""

import datetime as dt

import pytest
from django.utils import timezone

from logbook.models import RecomputeRequest, SetHistory, SetLog
from logbook.reads.slips import recent_slips
from logbook.services.sessions import session_id_for
from tests.logbook.conftest import signed_in
from tests.logbook.factories import NOW, make_planned, op, set_data
from tests.logbook.test_correction import MARK, RIGHT, slipped  # noqa: F401 - a fixture

VALUES = {"unit": "kg", "reps": 10, "rir": 1}
SAID = "This load was said to be right"


def sure(identity) -> bool:
    return SetLog.objects.get(pk=identity).confirmed


@pytest.mark.django_db
def test_a_yes_is_kept_for_any_load_and_told_back(gym):
    session = gym.start()
    assert not sure(gym.log(session, load=400))
    result = gym.apply("set.record", **set_data(session, gym.curl, number=2, load=400, confirmed=True))
    assert result["set"]["confirmed"] is True
    assert sure(result["set"]["id"])
    assert sure(gym.log(session, number=3, load=700, confirmed=True))


@pytest.mark.django_db
def test_a_replay_says_again_what_was_said_and_changes_nothing(gym):
    data = set_data(gym.start(), gym.curl, load=400, confirmed=True)
    first = gym.apply("set.record", id="5d4f3f0e-4c9e-4d0a-9d55-0b6f0d1c2e3a", **data)
    gym.apply("set.edit", gym.later(), set=data["set"], load=40, **VALUES)
    assert gym.apply("set.record", id="5d4f3f0e-4c9e-4d0a-9d55-0b6f0d1c2e3a", **data) == first
    assert not sure(data["set"])


@pytest.mark.django_db
def test_another_load_takes_the_yes_back_and_other_values_leave_it(gym):
    identity = gym.log(gym.start(), load=400, confirmed=True)
    gym.apply("set.edit", gym.later(1), set=identity, load=400, **VALUES | {"reps": 8})
    assert sure(identity)
    gym.apply("set.edit", gym.later(2), set=identity, load=401, **VALUES)
    assert not sure(identity)
    gym.apply("set.edit", gym.later(3), set=identity, load=402, confirmed=True, **VALUES)
    assert sure(identity)
    gym.apply("set.delete", gym.later(4), set=identity)
    gym.apply("set.edit", gym.later(5), set=identity, load=402, **VALUES)
    assert sure(identity), "brought back as it was"


@pytest.mark.django_db
def test_the_same_load_in_the_other_unit_is_another_entry(gym):
    identity = gym.log(gym.start(), load=400, confirmed=True)
    gym.apply("set.edit", gym.later(), set=identity, load=400, **VALUES | {"unit": "lb"})
    assert not sure(identity)


@pytest.mark.django_db
@pytest.mark.parametrize("late", [{"load": 40}, {"load": 40, "confirmed": True}, {"load": 400}])
def test_an_edit_that_came_too_late_takes_nothing_back(gym, late):
    identity = gym.log(gym.start(), load=30)
    gym.apply("set.edit", gym.later(10), set=identity, load=400, confirmed=True, **VALUES)
    gym.apply("set.edit", gym.later(5), set=identity, **VALUES, **late)
    row = SetLog.objects.get(pk=identity)
    assert (row.load, row.confirmed) == (400, True)


@pytest.mark.django_db
@pytest.mark.parametrize("load", [400, 40])
def test_a_yes_that_came_late_holds_for_its_own_load_only(gym, load):
    identity = gym.log(gym.start(), load=30)
    gym.apply("set.edit", gym.later(10), set=identity, load=400, **VALUES)
    gym.apply("set.edit", gym.later(5), set=identity, load=load, confirmed=True, **VALUES)
    row = SetLog.objects.get(pk=identity)
    assert (row.load, row.confirmed) == (400, load == 400)


def test_the_phones_yes_comes_by_the_api_and_no_mark_is_shown(slipped, phone):  # noqa: F811
    assert MARK in phone.get(slipped.url).text
    now = timezone.now()
    edit = op("set.edit", now, set=slipped.wrong, load=400, confirmed=True, **VALUES)
    answer = phone.post("/api/v1/operations/", {"operations": [edit]}, "application/json").json()
    assert answer["results"][0]["result"]["set"]["confirmed"] is True
    for browser in (slipped.desk, phone):
        assert MARK not in browser.get(slipped.url).text
    assert phone.get(f"/api/v1/sets/{slipped.wrong}/").json()["confirmed"] is True
    assert not SetHistory.objects.exists(), "no value was changed"


def test_one_yes_speaks_for_its_like_in_the_session_and_not_for_a_greater_slip(slipped):  # noqa: F811
    SetLog.objects.filter(pk=slipped.wrong).update(confirmed=True)
    slipped.log(slipped.session, number=3, load=400)
    assert "a slip?" not in slipped.desk.get(slipped.url).text
    slipped.log(slipped.session, number=4, load=1000, confirmed=True)
    SetLog.objects.filter(number=4).update(confirmed=False)
    assert slipped.desk.get(slipped.url).text.count("far from 400\u00a0kg before: a slip?") == 1


def test_without_a_script_the_yes_is_kept_and_not_asked_for_again(slipped, phone):  # noqa: F811
    page = f"/train/set/{slipped.wrong}/"
    values = {"load": "410", "unit": "kg", "reps": "9", "rir": "1", "side": "both"}
    assert phone.post(page, values).status_code == 422
    assert phone.post(page, values | {"confirmed": "1"}).status_code == 302
    assert phone.post(page, values | {"reps": "8"}).status_code == 302
    row = SetLog.objects.get(pk=slipped.wrong)
    assert (row.load, row.reps, row.confirmed) == (410, 8, True)
    assert MARK not in phone.get(slipped.url).text


def test_a_load_over_600_kg_that_was_confirmed_may_get_other_repetitions(slipped, phone):  # noqa: F811
    heavy = slipped.log(slipped.session, number=3, load=700, confirmed=True)
    values = {"load": "700", "unit": "kg", "reps": "3", "rir": "1", "side": "both"}
    assert phone.post(f"/train/set/{heavy}/", values).status_code == 302
    assert SetLog.objects.get(pk=heavy).reps == 3


def right_of(slipped):  # noqa: F811
    return f"/sets/{slipped.wrong}/right/"


def test_a_coach_says_that_it_is_right_with_one_press_and_the_values_stay_the_clients(slipped, phone):  # noqa: F811
    page = slipped.desk.get(slipped.correct).text
    assert f'action="{right_of(slipped)}"' in page
    assert 'name="seen" value="400.0"' in page
    before = SetLog.objects.values().get(pk=slipped.wrong)
    RecomputeRequest.objects.all().delete()
    assert slipped.desk.post(right_of(slipped), {"seen": "400.0"}).status_code == 302
    assert SetLog.objects.values().get(pk=slipped.wrong) == before | {"confirmed": True}
    assert not RecomputeRequest.objects.exists(), "no number follows from it"
    for browser in (slipped.desk, phone):
        assert MARK not in browser.get(slipped.url).text
    again = slipped.desk.get(slipped.correct).text
    assert SAID in again
    assert right_of(slipped) not in again


def test_an_edit_that_waited_on_the_phone_goes_before_the_coachs_yes(slipped):  # noqa: F811
    slipped.desk.post(right_of(slipped), {"seen": "400.0"})
    slipped.apply("set.edit", slipped.later(), set=slipped.wrong, load=40, **VALUES)
    row = SetLog.objects.get(pk=slipped.wrong)
    assert (row.load, row.confirmed) == (40, False)


@pytest.mark.parametrize("seen", ["40", "", "much", "nan"])
def test_nothing_is_said_of_a_load_that_the_coach_has_not_seen(slipped, seen):  # noqa: F811
    answer = slipped.desk.post(right_of(slipped), {"seen": seen}, follow=True)
    assert "in the meantime" in answer.text
    assert answer.request["PATH_INFO"] == slipped.correct
    assert not sure(slipped.wrong)


def test_a_deleted_set_has_nothing_to_be_right(slipped):  # noqa: F811
    slipped.apply("set.delete", slipped.later(), set=slipped.wrong)
    assert right_of(slipped) not in slipped.desk.get(slipped.correct).text
    slipped.desk.post(right_of(slipped), {"seen": "400.0"})
    assert not sure(slipped.wrong)


def test_a_corrected_load_is_believed_only_where_the_coach_was_asked_and_said_so(slipped):  # noqa: F811
    slipped.desk.post(slipped.correct, RIGHT)
    assert not sure(slipped.wrong)
    slipped.desk.post(slipped.correct, RIGHT | {"load": "4", "confirmed": "1"})
    assert sure(slipped.wrong)
    assert "a slip?" not in slipped.desk.get(slipped.url).text


def test_only_the_coach_may_say_it_here(slipped, phone):  # noqa: F811
    assert phone.post(right_of(slipped), {"seen": "400.0"}).status_code == 403
    for user in (slipped.colleague, slipped.outsider, slipped.other_client.user, slipped.nobody):
        assert signed_in(user).post(right_of(slipped), {"seen": "400.0"}).status_code == 404
    assert slipped.desk.get(right_of(slipped)).status_code == 405
    assert not sure(slipped.wrong)


def named(slipped) -> list[str]:  # noqa: F811
    today = NOW.date() + dt.timedelta(days=1)
    return [f"{one.exercise} {one.words} {one.date:%d %b}" for one in recent_slips(slipped.client, today)]


def test_the_coachs_page_names_what_the_sessions_page_marks(slipped):  # noqa: F811
    assert named(slipped) == ["Curl 400\u00a0kg 15 May"]
    SetLog.objects.filter(session=slipped.session).update(load=400, load_kg=400)
    assert len(named(slipped)) == slipped.desk.get(slipped.url).text.count(MARK) == 2


def test_what_is_right_deleted_or_long_ago_is_not_named(slipped):  # noqa: F811
    assert recent_slips(slipped.client, NOW.date() + dt.timedelta(days=29)) == []
    slipped.desk.post(right_of(slipped), {"seen": "400.0"})
    assert named(slipped) == []
    SetLog.objects.filter(pk=slipped.wrong).update(confirmed=False, deleted_at=NOW)
    assert named(slipped) == []


def test_the_suggestion_speaks_for_a_load_as_on_the_sessions_page(slipped):  # noqa: F811
    SetLog.objects.filter(pk=slipped.wrong).update(load=40, load_kg=40)
    planned = make_planned(slipped.client, NOW.date(), {"exercise": slipped.curl, "target_load_kg": 390.0})
    day = slipped.start(slipped.later(60), planned=planned.pk, session=session_id_for(planned.pk))
    slipped.log(day, at=slipped.later(61), load=400, slot=planned.slots.get().pk)
    assert "a slip?" not in slipped.desk.get(f"/train/done/{day}/").text
    assert named(slipped) == []
    planned.slots.update(target_load_kg=None)
    assert "a slip?" in slipped.desk.get(f"/train/done/{day}/").text
    assert named(slipped) == ["Curl 400\u00a0kg 15 May"]


def test_slips_are_read_in_one_query_whatever_is_logged(slipped, django_assert_num_queries):  # noqa: F811
    for number in range(3, 9):
        slipped.log(slipped.session, number=number, load=500 + number)
    with django_assert_num_queries(1):
        assert len(named(slipped)) == 7
