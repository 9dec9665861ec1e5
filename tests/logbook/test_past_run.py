"""A long table of past training is saved by a worker: watched, stopped, lost and found; wholly or not at all."""

import datetime as dt
import uuid

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone, translation

from logbook.models import LogImport, PastRun, RecomputeRequest, SetLog
from logbook.past.reading import HowToRead
from logbook.services import past_run, past_save, past_signs, past_work
from logbook.services.past_run import past_start, past_stop, past_sweep
from logbook.services.past_signs import ask_stop, saved_so_far, tell_saved
from logbook.services.past_work import past_work_off
from logbook.signals import past_queued
from tests.logbook.conftest import signed_in
from tests.logbook.past_fixture import sets_table
from tests.logbook.test_past_page import GOOD, fields, send

URL = "/you/past/"
State = PastRun.State


@pytest.fixture(autouse=True)
def unheard(monkeypatch):
    """Who was called to work; the tests work by themselves."""
    called = []
    monkeypatch.setattr(past_queued, "send", lambda sender, run_id: called.append(run_id))
    return called


@pytest.fixture(autouse=True)
def few_are_long(monkeypatch):
    monkeypatch.setattr(past_run, "LONG_ROWS", 3)
    monkeypatch.setattr(past_save, "AT_ONCE", 2)


def start(gym, text="2024-01-08 | Curl | 20 | 8", rows=5):
    table = sets_table("Date | Exercise | Load | Reps", *[text] * rows)
    how = HowToRead(unit="kg", today=dt.date(2024, 5, 15))
    return past_start(client=gym.client, by=gym.coach, table=table, how=how, file_name="old_log.csv")


@pytest.fixture
def run(gym):
    return start(gym)


def fresh(run):
    run.refresh_from_db()
    return run


def silent(run, seconds=600):
    PastRun.objects.filter(pk=run.pk).update(started_at=timezone.now() - dt.timedelta(seconds=seconds))


def test_a_short_table_is_saved_at_once_and_a_long_one_by_a_worker(
    gym, phone, unheard, monkeypatch, django_capture_on_commit_callbacks
):
    monkeypatch.setattr(past_run, "LONG_ROWS", 9)
    values = {**fields(send(phone, GOOD)), "do": "save"}
    monkeypatch.setattr(past_run, "LONG_ROWS", 3)
    with django_capture_on_commit_callbacks(execute=True):
        answer = phone.post(URL, values)
    run = PastRun.objects.get()
    assert answer.url == reverse("past-run", args=[run.pk])
    assert (unheard, SetLog.objects.count()) == ([run.pk], 0)
    past_work_off(run.pk)
    assert (fresh(run).state, SetLog.objects.count()) == (State.DONE, 4)
    monkeypatch.setattr(past_run, "LONG_ROWS", 4)
    assert phone.post(URL, values).status_code == 422  # nothing new
    assert PastRun.objects.count() == 1


def test_a_worker_saves_all_rows_and_asks_for_what_follows(run, gym):
    assert past_work_off(run.pk)
    done = LogImport.objects.get()
    assert (fresh(run).saved, run.table) == (done, "")
    assert (done.by, done.sets, done.file_name) == (gym.coach, 5, "old_log.csv")
    assert RecomputeRequest.objects.get().since == dt.date(2024, 1, 8)
    # A message that comes twice, a run that is begun twice.
    assert not past_work_off(run.pk)
    assert SetLog.objects.count() == 5


def test_the_same_table_twice_is_one_run(run, gym):
    assert start(gym) == run
    assert start(gym, "2024-01-09 | Curl | 20 | 8") != run


def test_of_two_runs_of_one_table_the_second_adds_nothing(run, gym):
    past_work_off(run.pk)
    again = start(gym)
    past_work_off(again.pk)
    assert (fresh(again).state, SetLog.objects.count()) == (State.REFUSED, 5)
    assert "Nothing was saved" in again.fault_words
    with translation.override("de"):
        assert "Nichts wurde gespeichert" in again.fault_words


def test_the_page_tells_rows_of_rows(run, gym, phone):
    page = reverse("past-run", args=[run.pk])
    assert "Waiting to begin" in phone.get(page).content.decode()
    PastRun.objects.update(state=State.RUNNING, started_at=timezone.now())
    assert "Reading the table" in phone.get(page).content.decode()
    tell_saved(run.pk, 2, 5)
    for browser in (phone, signed_in(gym.coach)):
        assert "2 of 5 rows saved" in browser.get(page, headers={"HX-Request": "true"}).content.decode()
    assert "is being saved" in phone.get(URL).content.decode()


def test_the_page_tells_what_became_of_it(run, phone):
    past_work_off(run.pk)
    page = reverse("past-run", args=[run.pk])
    assert phone.get(page, headers={"HX-Request": "true"})["HX-Refresh"] == "true"
    assert "5 sets are in the log now" in phone.get(page).content.decode()


def test_a_run_that_waits_is_stopped_at_once_and_can_be_looked_at_again(run, phone):
    answer = phone.post(reverse("past-run-stop", args=[run.pk]), follow=True)
    assert "nothing of it was saved" in answer.content.decode()
    assert not past_work_off(run.pk)
    assert "Look at it again" in answer.content.decode()
    page = reverse("past-run", args=[run.pk])
    phone.post(page, {"do": "check", "unit": "kg"})
    past_work_off(run.pk)
    assert "All of it is right" in phone.get(page).content.decode()


@pytest.mark.parametrize("rows_before", [0, 2, 4])
def test_a_stop_before_the_end_leaves_nothing(run, monkeypatch, rows_before):
    """The stop comes while the worker's transaction is open."""

    def told(run_id, saved, rows):
        if saved == rows_before:
            ask_stop(run_id)

    monkeypatch.setattr(past_work, "tell_saved", told)
    past_work_off(run.pk)
    assert (fresh(run).state, SetLog.objects.count(), LogImport.objects.count()) == (State.CANCELLED, 0, 0)
    assert not RecomputeRequest.objects.exists()


def test_a_stop_at_the_last_line_leaves_nothing(run, monkeypatch):
    monkeypatch.setattr(past_save, "recompute_request", lambda **values: past_stop(run=run))
    past_work_off(run.pk)
    assert (fresh(run).state, SetLog.objects.count()) == (State.CANCELLED, 0)


def test_a_stop_after_the_end_changes_nothing(run):
    past_work_off(run.pk)
    assert past_stop(run=run).state == State.DONE
    assert SetLog.objects.count() == 5


def test_a_fault_leaves_nothing_and_is_told(run, monkeypatch):
    def break_down(**values):
        raise RuntimeError

    monkeypatch.setattr(past_save, "recompute_request", break_down)
    with pytest.raises(RuntimeError):
        past_work_off(run.pk)
    assert (fresh(run).state, SetLog.objects.count()) == (State.FAILED, 0)
    assert run.table


def test_a_worker_that_was_taken_from_saves_nothing(run, monkeypatch):
    def lose(*signs):
        if fresh(run).attempt == 1:
            silent(run)
            past_sweep(timezone.now())

    monkeypatch.setattr(past_work, "tell_saved", lose)
    past_work_off(run.pk)
    assert (fresh(run).state, SetLog.objects.count()) == (State.QUEUED, 0)
    past_work_off(run.pk)
    assert (fresh(run).state, run.attempt, SetLog.objects.count()) == (State.DONE, 2, 5)


def test_a_lost_worker_is_found_but_not_one_that_speaks(run):
    PastRun.objects.update(state=State.RUNNING, attempt=1)
    silent(run)
    tell_saved(run.pk, 2, 5)
    assert past_sweep(timezone.now()) == 0
    assert past_sweep(timezone.now() + dt.timedelta(minutes=5)) == 1
    assert (fresh(run).state, saved_so_far(run.pk)) == (State.QUEUED, None)


class Away:
    """A cache whose server does not answer."""

    def refuse(self, *args):
        raise ConnectionError

    get = set = delete_many = refuse


def test_signs_that_cannot_be_given_stop_nothing(run, phone, monkeypatch):
    monkeypatch.setattr(past_signs, "caches", {"signs": Away()})
    page = reverse("past-run", args=[run.pk])
    assert "0 of 5 rows saved" in phone.get(page).content.decode()
    assert past_work_off(run.pk)
    assert (fresh(run).state, SetLog.objects.count()) == (State.DONE, 5)


def test_a_stop_is_heard_without_signs(run, phone, monkeypatch):
    monkeypatch.setattr(past_signs, "caches", {"signs": Away()})
    assert phone.post(reverse("past-run-stop", args=[run.pk])).status_code == 302
    assert fresh(run).state == State.CANCELLED


def test_a_lost_message_is_sent_again(run, unheard, django_capture_on_commit_callbacks):
    PastRun.objects.update(queued_at=timezone.now() - dt.timedelta(minutes=2))
    with django_capture_on_commit_callbacks(execute=True):
        assert past_sweep(timezone.now()) == 1
    assert unheard == [run.pk]


@pytest.mark.parametrize(
    ("fields", "state"),
    [({"attempt": 3}, State.FAILED), ({"attempt": 1, "cancel_asked": True}, State.CANCELLED)],
)
def test_a_lost_run_is_not_begun_for_ever(run, fields, state):
    PastRun.objects.update(state=State.RUNNING, **fields)
    silent(run)
    past_sweep(timezone.now())
    assert fresh(run).state == state


def test_what_was_not_saved_is_let_go_of_after_a_day(run):
    past_stop(run=run)
    past_sweep(timezone.now() + dt.timedelta(hours=23))
    assert fresh(run).table
    past_sweep(timezone.now() + dt.timedelta(hours=25))
    assert not fresh(run).table


def test_a_watched_run_writes_no_audit_of_every_second(run, gym):
    """SQLite has one writer: the page would wait for the transaction that it watches."""
    browser = signed_in(gym.coach)
    page = reverse("past-run", args=[run.pk])
    browser.get(page)
    with CaptureQueriesContext(connection) as found:
        browser.get(page, headers={"HX-Request": "true"})
    assert not [one["sql"] for one in found if one["sql"].split()[0] in ("INSERT", "UPDATE", "DELETE")]
    assert len(found) <= 6


def test_no_run_of_nobody(phone):
    assert phone.get(reverse("past-run", args=[uuid.uuid4()])).status_code == 404
