"""The reading side: who may read what, what it holds, and that its cost does not grow."""

import datetime as dt
import uuid

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from tests.logbook.conftest import signed_in
from tests.logbook.factories import NOW, make_exercise, make_planned


@pytest.fixture
def logged(gym):
    """A finished session of last week with an edited and a deleted set."""
    gym.week_ago = NOW - dt.timedelta(days=7)
    gym.session = gym.start(gym.week_ago)
    gym.first = gym.log(gym.session, at=gym.week_ago)
    gym.second = gym.log(gym.session, at=gym.week_ago, number=2)
    gym.log(gym.session, at=gym.week_ago, number=1, warm_up=True, load=20)
    gym.apply("set.edit", gym.later(1), set=gym.first, load=42.5, unit="kg", reps=9, rir=2)
    gym.apply("set.delete", gym.later(1), set=gym.second)
    gym.apply("session.finish", gym.week_ago, session=gym.session, session_rpe=7, minutes=45)
    gym.apply("checkin.record", fatigue=3, sleep=3, soreness=3, stress=3, mood=3)
    return gym


def test_session_list_counts_the_sets_that_stand(logged, phone):
    row = phone.get("/api/v1/sessions/").json()["results"][0]
    assert (row["id"], row["sets_logged"], row["session_rpe"]) == (str(logged.session), 1, 7)


def test_session_detail_has_every_set_with_its_earlier_values(logged, phone):
    body = phone.get(f"/api/v1/sessions/{logged.session}/").json()
    sets = {row["id"]: row for row in body["sets"]}
    assert len(sets) == 3
    assert sets[str(logged.first)]["history"][0]["values"]["load"] == 40
    assert sets[str(logged.second)]["deleted_at"] is not None


def test_set_detail_has_its_history(logged, phone):
    body = phone.get(f"/api/v1/sets/{logged.first}/").json()
    assert (body["load"], body["reps"]) == (42.5, 9)
    assert [entry["values"]["reps"] for entry in body["history"]] == [10]


def test_check_ins_are_listed(logged, phone):
    body = phone.get("/api/v1/check-ins/").json()
    assert [row["total"] for row in body["results"]] == [15]


@pytest.mark.parametrize("path", ["plan/", "sessions/", "check-ins/", "comments/"])
def test_coach_reads_a_clients_and_strangers_get_404(logged, path):
    url = f"/api/v1/{path}?client={logged.client.pk}"
    answers = {
        "client": signed_in(logged.client.user).get(url).status_code,
        "coach": signed_in(logged.coach).get(url).status_code,
        "owner": signed_in(logged.owner).get(url).status_code,
        "colleague": signed_in(logged.colleague).get(url).status_code,
        "outsider": signed_in(logged.outsider).get(url).status_code,
        "other client": signed_in(logged.other_client.user).get(url).status_code,
    }
    assert answers == {
        "client": 200, "coach": 200, "owner": 200, "colleague": 404, "outsider": 404, "other client": 404,
    }  # fmt: skip


@pytest.mark.parametrize("named", ["x", "-1", "1.5", "", "9" * 30, "²"])
def test_client_that_is_no_number_is_a_problem(logged, named):
    response = signed_in(logged.coach).get("/api/v1/plan/", {"client": named})
    assert (response.status_code, response.json()["code"]) == (400, "invalid")


@pytest.mark.parametrize("path", ["sessions/{session}/", "sets/{first}/"])
def test_stranger_gets_404_for_one_row(logged, path):
    url = "/api/v1/" + path.format(session=logged.session, first=logged.first)
    for user in (logged.other_client.user, logged.colleague, logged.outsider, logged.nobody):
        assert signed_in(user).get(url).status_code == 404
    assert signed_in(logged.coach).get(url).status_code == 200


@pytest.mark.parametrize("path", ["plan/", "sessions/", "check-ins/", "schema/", f"sets/{uuid.UUID(int=1)}/"])
def test_anonymous_gets_a_401_problem(client, db, path):
    response = client.get(f"/api/v1/{path}")
    assert (response.status_code, response["Content-Type"]) == (401, "application/problem+json")


def test_plan_holds_what_a_session_needs(logged, phone):
    today = timezone.now().date()
    target = {
        "target_load_kg": 45,
        "target_reps": 8,
        "target_reason": {"action": "reps_up", "code": "add_reps", "params": {"reps": 8}},
    }
    planned = make_planned(
        logged.client, today, {"exercise": logged.curl, "pair": "A1", **target}, {"exercise": logged.row}
    )
    logged.log(logged.start(timezone.now() - dt.timedelta(days=3)), at=timezone.now() - dt.timedelta(days=3), load=44)
    body = phone.get("/api/v1/plan/").json()
    session = body["sessions"][0]
    curl = session["exercises"][0]
    assert (session["planned"], session["started"], body["unit"]) == (planned.pk, False, "kg")
    assert uuid.UUID(session["session"])
    assert curl["prescription"]["reps_max"] == 12
    assert curl["exercise"]["cautions"] == ["Stop when the joint hurts."]
    assert curl["target"]["load_kg"] == 45
    assert "8" in curl["target"]["reason"]
    assert [row["load"] for row in curl["last"]["sets"]] == [44]
    ladder = body["ladders"][curl["ladder"]]
    at_45 = ladder["settings"].index(45)
    assert ladder["plates"][at_45] == [10, 2.5]


def test_plan_leaves_out_other_days_and_cancelled_sessions(logged, phone):
    today = timezone.now().date()
    for days in (-1, 0, 13, 14):
        make_planned(logged.client, today + dt.timedelta(days=days), {"exercise": logged.curl})
    make_planned(logged.client, today, {"exercise": logged.curl}, cancelled_at=NOW)
    sessions = phone.get("/api/v1/plan/").json()["sessions"]
    assert [row["date"] for row in sessions] == [(today + dt.timedelta(days=d)).isoformat() for d in (0, 13)]


def queries(phone, url):
    with CaptureQueriesContext(
        connection,
    ) as caught:
        assert phone.get(url).status_code == 200
    return len(caught)


def test_cost_does_not_grow_with_the_log_and_the_plan(logged, phone):
    today = timezone.now().date()
    make_planned(logged.client, today, {"exercise": logged.curl})
    urls = ["/api/v1/plan/", "/api/v1/sessions/", f"/api/v1/sessions/{logged.session}/", "/api/v1/check-ins/"]
    few = {url: queries(phone, url) for url in urls}
    for n in range(1, 7):
        exercise = make_exercise(f"press-{n}", "dumbbell")
        make_planned(logged.client, today + dt.timedelta(days=n), {"exercise": exercise}, {"exercise": logged.curl})
        session = logged.start(NOW - dt.timedelta(days=n))
        logged.log(session, exercise, NOW - dt.timedelta(days=n))
        extra = logged.log(logged.session, number=n + 5)
        logged.apply("set.edit", logged.later(n), set=extra, load=50, unit="kg", reps=5, rir=0)
        logged.apply(
            "checkin.record",
            NOW - dt.timedelta(days=n),
            **dict.fromkeys(("fatigue", "sleep", "soreness", "stress", "mood"), 4),
        )
    assert {url: queries(phone, url) for url in urls} == few


def test_lists_are_paged(logged, phone):
    for n in range(3):
        logged.start(NOW - dt.timedelta(days=n))
    body = phone.get("/api/v1/sessions/?page_size=2").json()
    assert (body["count"], len(body["results"])) == (4, 2)
    assert phone.get("/api/v1/sessions/?page=99").json()["code"] == "not_found"
