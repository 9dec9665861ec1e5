"""The batch address: each operation is answered on its own, and problems have one shape."""

import json
import uuid

import pytest
from django.conf import settings
from django.test import Client as Browser
from django.urls import reverse
from django.utils import timezone

from logbook.models import Operation, SetLog
from logbook.services import batch
from tests.logbook.conftest import signed_in
from tests.logbook.factories import op, set_data

URL = "/api/v1/operations/"


@pytest.fixture
def send(phone):
    def send(*operations):
        return phone.post(URL, {"operations": list(operations)}, content_type="application/json")

    return send


@pytest.fixture
def started(gym, send):
    """A session of today, and a maker of set operations in it."""
    session = uuid.uuid4()
    send(op("session.start", timezone.now(), session=session))
    return lambda **data: op("set.record", timezone.now(), **set_data(session, gym.curl) | data)


def problem_of(response, status, code):
    assert response.status_code == status
    assert response["Content-Type"].startswith("application/problem+json")
    body = response.json()
    assert (body["status"], body["code"]) == (status, code)
    assert body["type"] == f"urn:sinewright:problem:{code}"
    assert body["title"]
    return body


def test_address_is_the_one_promised():
    assert reverse("api-v1:operations") == URL


def test_all_saved_is_200(send, started):
    response = send(started(), started(number=2))
    assert response.status_code == 200
    assert [answer["status"] for answer in response.json()["results"]] == ["saved", "saved"]


def test_replay_is_200_with_the_first_result(send, started):
    record = started()
    first = send(record).json()["results"][0]
    again = send(record, record).json()["results"]
    assert [answer["status"] for answer in again] == ["replayed", "replayed"]
    assert all(answer["result"] == first["result"] for answer in again)


def test_one_bad_item_is_named_and_the_good_ones_are_saved(send, started):
    good, bad, good_too = started(), started(load=-1), started(number=2)
    response = send(good, bad, good_too)
    assert response.status_code == 207
    answers = response.json()["results"]
    assert [answer["status"] for answer in answers] == ["saved", "refused", "saved"]
    assert [answer["id"] for answer in answers] == [good["id"], bad["id"], good_too["id"]]
    refusal = answers[1]["problem"]
    assert (refusal["status"], refusal["code"]) == (422, "min_value")
    assert list(refusal["errors"]) == ["load"]
    assert SetLog.objects.count() == 2


def test_all_refused_is_422_and_nothing_is_saved(send, started):
    before = Operation.objects.count()
    response = send(started(reps=101), started(exercise=10**9), {"id": 3}, None)
    assert response.status_code == 422
    codes = [answer["problem"]["code"] for answer in response.json()["results"]]
    assert codes == ["max_value", "unknown_exercise", "invalid", "not_an_object"]
    assert (SetLog.objects.count(), Operation.objects.count()) == (0, before)


def test_fault_of_ours_asks_for_a_retry_and_leaves_the_others_alone(send, started, monkeypatch):
    good, unlucky = started(), started(number=2)
    real = batch.operation_outcome

    def stumble(*, operation, **kwargs):
        if operation["id"] == unlucky["id"]:
            raise RuntimeError("disk full")
        return real(operation=operation, **kwargs)

    monkeypatch.setattr(batch, "operation_outcome", stumble)
    response = send(good, unlucky)
    assert response.status_code == 207
    assert [answer["status"] for answer in response.json()["results"]] == ["saved", "retry"]
    assert "disk full" not in response.content.decode()
    assert send(unlucky).status_code == 503
    monkeypatch.undo()
    assert send(unlucky).json()["results"][0]["status"] == "saved"


def test_sets_whose_session_stumbled_are_not_refused(gym, send, monkeypatch):
    """The session's start meets a fault of ours: its sets must come again with it, not be refused for good."""
    session = uuid.uuid4()
    start = op("session.start", timezone.now(), session=session)
    record = op("set.record", timezone.now(), **set_data(session, gym.curl))
    real = batch.operation_outcome

    def stumble(*, operation, **kwargs):
        if operation is not None and operation["kind"] == "session.start":
            raise RuntimeError("disk full")
        return real(operation=operation, **kwargs)

    monkeypatch.setattr(batch, "operation_outcome", stumble)
    assert [answer["status"] for answer in send(start, record).json()["results"]] == ["retry", "retry"]
    monkeypatch.undo()
    assert [answer["status"] for answer in send(start, record).json()["results"]] == ["saved", "saved"]


def test_listeners_are_told_once_a_batch(send, started, django_capture_on_commit_callbacks):
    from logbook.signals import recompute_requested

    told = []

    def listener(client_id, **kwargs):
        told.append(client_id)

    recompute_requested.connect(listener)
    try:
        with django_capture_on_commit_callbacks(execute=True):
            send(*(started(number=n) for n in range(1, 6)))
        assert len(told) == 1
    finally:
        recompute_requested.disconnect(listener)


@pytest.mark.parametrize(
    ("body", "code"),
    [
        ("", "not_a_list"),
        ("{", "parse_error"),
        ("operations=1", "parse_error"),
        ('{"operations": [{"id": NaN}]}', "parse_error"),
        ('{"operations": Infinity}', "parse_error"),
        ("[]", "not_a_list"),
        ("null", "not_a_list"),
        ("{}", "not_a_list"),
        ('{"operations": {}}', "not_a_list"),
        ('{"operations": "x"}', "not_a_list"),
        (json.dumps({"operations": [None] * 201}), "too_many_operations"),
        ('{"operations": ' + "[" * 100_000 + "]" * 100_000 + "}", "parse_error"),
    ],
)
def test_body_that_is_not_a_batch_is_400(phone, body, code):
    problem_of(phone.post(URL, body, content_type="application/json"), 400, code)
    assert not Operation.objects.exists()


def test_body_of_another_type_is_415(phone):
    problem_of(phone.post(URL, {"operations": "[]"}), 415, "unsupported_media_type")


def test_body_that_is_too_large_is_413(phone):
    problem_of(phone.post(URL, " " * 2_000_001, content_type="application/json"), 413, "too_large")


def test_infinite_number_hidden_in_valid_json_is_refused(phone, started):
    record = started()
    body = json.dumps({"operations": [record]}).replace('"load": 40', '"load": 1e999')
    assert "1e999" in body
    answer = phone.post(URL, body, content_type="application/json").json()["results"][0]
    assert answer["problem"]["code"] == "not_finite"


def test_empty_batch_is_200(send):
    assert send().json() == {"results": []}


def test_200_operations_are_taken(send, started):
    response = send(*(started(number=n % 100 + 1) for n in range(200)))
    assert response.status_code == 200
    assert SetLog.objects.count() == 200


def test_anonymous_is_401_so_that_the_phone_keeps_its_entries(client, db):
    response = client.post(URL, {"operations": []}, content_type="application/json")
    problem_of(response, 401, "not_authenticated")
    assert response["WWW-Authenticate"] == "Session"


def test_coach_has_no_log_of_their_own(gym):
    problem_of(signed_in(gym.coach).post(URL, {"operations": []}, content_type="application/json"), 404, "not_found")


def test_request_without_csrf_token_is_403(gym):
    browser = Browser(enforce_csrf_checks=True)
    browser.force_login(gym.client.user, backend=settings.AUTHENTICATION_BACKENDS[-1])
    problem_of(browser.post(URL, {"operations": []}, content_type="application/json"), 403, "permission_denied")


def test_same_number_of_queries_for_every_set(send, started, django_assert_max_num_queries):
    """A set costs: first look, savepoint (twice here), session, exercise, set, its row, operation, request; then the
    person once a batch. The budget is for ten."""
    operations = [started(number=n) for n in range(1, 11)]
    with django_assert_max_num_queries(10 * 10 + 4):
        send(*operations)
