"""Whatever is sent to the API, by a client or by a coach: no fault of ours, and every refusal says its code."""

import json
from urllib.parse import quote
from uuid import uuid4

import pytest
from django.utils import timezone
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from logbook.operations.kinds import KINDS
from tests.logbook.conftest import signed_in
from tests.logbook.factories import op

OPERATIONS = "/api/v1/operations/"
LISTS = ("plan", "sessions", "check-ins", "comments")
# What makes sense; an empty text stands for a row of the test's own.
A_SET = {"load": 20, "unit": "kg", "reps": 8, "rir": 2}
RIGHT = {
    "set.record": {"set": "", "session": "", "exercise": "", "number": 7, **A_SET},
    "set.edit": {"set": "", **A_SET},
    "session.note": {"session": "", "note": "fine"},
    "session.finish": {"session": "", "session_rpe": 7, "minutes": 50},
}
FEW = settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow]
)
scalars = (
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats(allow_nan=False)
    | st.text(max_size=20)
    | st.uuids().map(str)
    | st.dates().map(str)
    | st.datetimes().map(lambda moment: moment.isoformat() + "Z")
)
values = st.recursive(
    scalars, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3)
)
fields = st.sampled_from(
    ["session", "planned", "set", "exercise", "number", "load", "unit", "reps", "rir", "note", "text", "date", "score",
     "mass", "side", "comment", "slot", "reason", "fatigue", "sleep", "client", "id", "minutes", "session_rpe"]
)  # fmt: skip
operations = st.fixed_dictionaries(
    {},
    optional={
        "id": st.uuids().map(str) | values,
        "kind": st.sampled_from(sorted(KINDS)) | values,
        "at": st.datetimes().map(lambda moment: moment.isoformat() + "Z") | values,
        "data": st.dictionaries(fields, values, max_size=8) | values,
    },
)
bodies = st.fixed_dictionaries({"operations": st.lists(operations, max_size=3)}) | values


def is_told(answer):
    """No fault of ours; a refusal is a problem body with a code."""
    assert answer.status_code < 500
    if answer.status_code >= 400:
        assert answer["Content-Type"].startswith("application/problem+json")
        assert answer.json()["code"]


def answered(answer):
    """Each operation is saved or refused by a code; "retry" would say that a fault of ours was met."""
    assert answer.status_code < 500
    if "results" not in answer.json():
        is_told(answer)
        return
    for one in answer.json()["results"]:
        assert one["status"] in ("saved", "replayed", "refused")
        assert one["status"] != "refused" or one["problem"]["code"]


@pytest.fixture
def browsers(gym):
    return [signed_in(gym.client.user), signed_in(gym.coach)]


@FEW
@given(body=bodies)
def test_any_operation_is_taken_or_refused_by_a_code(browsers, body):
    for browser in browsers:
        answer = browser.post(OPERATIONS, json.dumps(body), content_type="application/json")
        answered(answer)


@FEW
@given(kind=st.sampled_from(sorted(RIGHT)), wrong=st.dictionaries(fields, values, max_size=2))
def test_a_value_that_makes_no_sense_in_an_operation_that_does(gym, browsers, kind, wrong):
    session = gym.start()
    row = gym.log(session)
    named = {"session": str(session), "set": str(row if kind.startswith("set.e") else uuid4()), "exercise": gym.curl.pk}
    data = {key: named.get(key, value) for key, value in RIGHT[kind].items()} | wrong
    body = {"operations": [op(kind, timezone.now(), **data)]}
    answer = browsers[0].post(OPERATIONS, json.dumps(body, default=str), content_type="application/json")
    answered(answer)
    assert wrong or answer.status_code == 200, answer.content


@FEW
@given(data=st.binary(max_size=40))
def test_a_body_that_is_no_json_is_refused_by_a_code(browsers, data):
    for browser in browsers:
        is_told(browser.post(OPERATIONS, data, content_type="application/json"))


@FEW
@given(
    name=st.sampled_from(LISTS),
    query=st.dictionaries(
        st.sampled_from(["client", "page", "since", "until", "from", "to", "date", "start", "end", "cursor"]),
        st.text(max_size=12) | st.integers().map(str) | st.dates().map(str),
        max_size=4,
    ),
)
def test_any_question_is_answered_or_refused_by_a_code(browsers, name, query):
    for browser in browsers:
        is_told(browser.get(f"/api/v1/{name}/", query))


@FEW
@given(name=st.sampled_from(["sessions", "sets"]), key=st.text(min_size=1, max_size=12) | st.uuids().map(str))
def test_any_row_that_is_not_there_is_refused(browsers, name, key):
    for browser in browsers:
        answer = browser.get(f"/api/v1/{name}/{quote(key, safe='')}/")
        assert 400 <= answer.status_code < 500
