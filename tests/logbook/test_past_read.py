"""A long file of past training is read by a worker: watched, stopped, looked at, mended; saved only when asked."""

import datetime as dt
import html
import io

import openpyxl
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from django.utils import timezone, translation
from django.utils.translation import gettext

from logbook.models import LogImport, PastRun, SetLog
from logbook.past import set_lines
from logbook.services import past_run, past_signs, past_work
from logbook.services.past_run import past_sweep
from logbook.services.past_signs import ask_stop
from logbook.services.past_work import past_work_off
from logbook.signals import past_queued
from programs.sheets import xlsx_read
from tests.logbook.conftest import signed_in
from tests.logbook.test_past_page import GOOD, HEAD, fields, send

URL = "/you/past/"
State = PastRun.State
WRONG = GOOD.replace("12.5,8,,,\n,,right", "12.5,many,,,\n,,right")


@pytest.fixture(autouse=True)
def called(monkeypatch):
    """Who was called to work; the tests work by themselves."""
    runs = []
    monkeypatch.setattr(past_queued, "send", lambda sender, run_id: runs.append(run_id))
    monkeypatch.setattr(past_run, "LONG_ROWS", 3)
    return runs


@pytest.fixture
def run(gym, phone):
    return sent(phone, GOOD)


def sent(browser, text):
    """Send a file and return the run that it became."""
    answer = send(browser, text)
    assert answer.status_code == 302, answer.content.decode()
    return PastRun.objects.get(pk=answer.url.strip("/").split("/")[-1])


def page(run):
    return reverse("past-run", args=[run.pk])


def fresh(run):
    run.refresh_from_db()
    return run


def kept(run):
    """Whether anything of what was in the file is kept with the run."""
    fresh(run)
    return bool(run.file or run.table or run.seen or run.typed)


def test_a_long_file_is_read_by_a_worker_and_nothing_is_saved_until_asked(
    gym, phone, called, django_capture_on_commit_callbacks
):
    with django_capture_on_commit_callbacks(execute=True):
        run = sent(phone, GOOD)
    assert called == [run.pk]
    assert "old_log.csv is being read" in phone.get(page(run)).content.decode()
    assert past_work_off(run.pk)
    assert (fresh(run).state, run.file, run.rows) == (State.READ, None, 4)
    assert "waits for you" in phone.get(URL).content.decode()
    answer = phone.get(page(run))
    assert "All of it is right" in answer.content.decode()
    phone.post(page(run), {**fields(answer), "do": "save"})
    assert not SetLog.objects.exists()
    past_work_off(run.pk)
    assert (fresh(run).state, SetLog.objects.count(), kept(run)) == (State.DONE, 4, False)


def test_who_saved_it_has_brought_it_in(run, gym, phone):
    past_work_off(run.pk)
    coach = signed_in(gym.coach)
    coach.post(page(run), {**fields(coach.get(page(run))), "do": "save"})
    past_work_off(run.pk)
    assert LogImport.objects.get().by == gym.coach


def test_the_same_file_twice_is_one_run(run, phone):
    assert sent(phone, GOOD) == run
    assert sent(phone, GOOD + "2024-01-11,Curl,,20,10,2,7,50\n") != run


def test_what_is_wrong_is_mended_on_the_page_and_read_again(gym, phone):
    run = sent(phone, WRONG)
    past_work_off(run.pk)
    answer = phone.get(page(run))
    assert "1 cell to mend" in answer.content.decode()
    # Who saves what is wrong has nothing saved, and can look again.
    phone.post(page(run), {**fields(answer), "do": "save"})
    past_work_off(run.pk)
    assert (fresh(run).state, SetLog.objects.count()) == (State.REFUSED, 0)
    phone.post(page(run), {**fields(answer), "cell-2-4": "8", "do": "check"})
    past_work_off(run.pk)
    assert "All of it is right" in phone.get(page(run)).content.decode()
    phone.post(page(run), {"do": "save"})
    past_work_off(run.pk)
    assert SetLog.objects.count() == 4


def test_an_exercise_that_is_not_known_is_named_on_the_page(gym, phone):
    run = sent(phone, GOOD.replace("Curl", "Arm thing"))
    past_work_off(run.pk)
    answer = phone.get(page(run))
    assert "Arm thing" in answer.content.decode()
    phone.post(page(run), {**fields(answer), "type-1": "Curl", "do": "check"})
    past_work_off(run.pk)
    assert "All of it is right" in phone.get(page(run)).content.decode()


def test_what_was_stopped_is_not_saved_before_it_was_looked_at(run, phone):
    past_work_off(run.pk)
    phone.post(page(run), {"do": "check"})
    phone.post(reverse("past-run-stop", args=[run.pk]))
    phone.post(page(run), {"do": "save"})
    past_work_off(run.pk)
    assert (fresh(run).state, SetLog.objects.count()) == (State.READ, 0)


@pytest.mark.parametrize("at", [0, 2, 4])
def test_a_stop_while_it_is_read_is_heard_and_keeps_nothing(run, monkeypatch, at):
    monkeypatch.setattr(set_lines, "TELL_EVERY", 2)
    monkeypatch.setattr(past_work, "tell_saved", lambda pk, done, rows: done == at and ask_stop(pk))
    past_work_off(run.pk)
    assert (fresh(run).state, kept(run)) == (State.CANCELLED, False)


def test_a_stop_while_a_workbook_is_unpacked_is_no_damage_to_it(gym, phone, monkeypatch):
    monkeypatch.setattr(xlsx_read, "TELL_EVERY", 2)
    book, data = openpyxl.Workbook(), io.BytesIO()
    for line in GOOD.splitlines():
        book.active.append(line.split(","))
    book.save(data)
    answer = phone.post(URL, {"file": SimpleUploadedFile("old.xlsx", data.getvalue())})
    run = PastRun.objects.get()
    assert answer.url == page(run)
    told = []

    def tell(pk, done, rows):
        told.append((done, rows))
        if done == 4:
            ask_stop(pk)

    monkeypatch.setattr(past_work, "tell_saved", tell)
    past_work_off(run.pk)
    assert told[-1] == (4, 0)
    assert (fresh(run).state, run.fault) == (State.CANCELLED, "")


def test_the_page_tells_how_many_rows_are_read(run, phone):
    PastRun.objects.update(state=State.RUNNING, started_at=timezone.now())
    past_signs.tell_saved(run.pk, 3, 0)
    assert "3 rows unpacked" in phone.get(page(run)).content.decode()
    past_signs.tell_saved(run.pk, 2, 4)
    assert "2 of 4 rows read" in phone.get(page(run), headers={"HX-Request": "true"}).content.decode()


def test_what_is_looked_at_and_not_wanted_is_gone_at_once(run, phone):
    past_work_off(run.pk)
    phone.post(reverse("past-run-stop", args=[run.pk]))
    assert (fresh(run).state, kept(run)) == (State.CANCELLED, False)


def test_what_is_read_is_kept_a_day(run):
    past_work_off(run.pk)
    past_sweep(timezone.now() + dt.timedelta(hours=23))
    assert fresh(run).state == State.READ
    past_sweep(timezone.now() + dt.timedelta(hours=25))
    assert (fresh(run).state, kept(run)) == (State.CANCELLED, False)


def test_a_file_that_is_no_table_is_refused_in_the_readers_language(gym, phone):
    run = sent(phone, "Hello\n" * 30)
    past_work_off(run.pk)
    assert (fresh(run).state, kept(run), run.fault) == (State.REFUSED, False, "no_headings")
    assert "No row with headings was found" in phone.get(page(run)).content.decode()
    gym.coach.language = "de"
    gym.coach.save()
    assert "Keine Zeile mit Überschriften" in signed_in(gym.coach).get(page(run)).content.decode()


def test_what_is_found_is_said_in_the_language_of_who_asked(gym):
    gym.coach.language = "de"
    gym.coach.save()
    coach = signed_in(gym.coach)
    answer = send(coach, WRONG, reverse("client-past", args=[gym.client.pk]))
    past_work_off(PastRun.objects.get().pk)
    with translation.override("de"):
        words = gettext("Write one whole number: what was done, not a range.")
    assert words != "Write one whole number: what was done, not a range."
    assert words in html.unescape(coach.get(answer.url).content.decode())


def test_a_worker_that_was_taken_from_keeps_nothing_it_read(run, monkeypatch):
    def lose(*signs):
        if fresh(run).attempt == 1:
            PastRun.objects.update(started_at=timezone.now() - dt.timedelta(minutes=10))
            past_sweep(timezone.now())

    monkeypatch.setattr(past_work, "tell_saved", lose)
    past_work_off(run.pk)
    assert (fresh(run).state, bool(run.file)) == (State.QUEUED, True)
    past_work_off(run.pk)
    assert (fresh(run).state, run.attempt, LogImport.objects.count()) == (State.READ, 2, 0)


def test_a_worker_that_was_thought_lost_saves_nothing_once_the_table_is_asked_for_anew(run, phone, monkeypatch):
    past_work_off(run.pk)
    phone.post(page(run), {"do": "save"})

    def stopped_and_asked_for_anew(*signs):
        monkeypatch.setattr(past_work, "tell_saved", lambda *signs: None)
        PastRun.objects.update(started_at=timezone.now() - dt.timedelta(minutes=10))
        phone.post(reverse("past-run-stop", args=[run.pk]))
        phone.post(page(run), {"do": "check"})
        # Another worker has begun to read: as often as the first one, since it was asked anew.
        PastRun.objects.update(state=State.RUNNING, attempt=1, started_at=timezone.now())

    monkeypatch.setattr(past_work, "tell_saved", stopped_and_asked_for_anew)
    past_work_off(run.pk)
    assert (fresh(run).state, SetLog.objects.count()) == (State.RUNNING, 0)


def test_what_was_mended_is_kept_when_the_worker_came_to_no_end(gym, phone):
    run = sent(phone, WRONG)
    past_work_off(run.pk)
    phone.post(page(run), {**fields(phone.get(page(run))), "cell-2-4": "8", "do": "save"})
    PastRun.objects.update(state=State.FAILED, ended_at=timezone.now())
    assert "Look at it again" in phone.get(page(run)).content.decode()
    phone.post(page(run), {"unit": "kg", "order": "", "do": "check"})
    past_work_off(run.pk)
    assert "All of it is right" in phone.get(page(run)).content.decode()


def test_the_file_goes_with_the_person(run, gym):
    gym.client.delete()
    assert not PastRun.objects.exists()


def test_a_short_file_is_read_at_once(gym, phone):
    assert send(phone, HEAD + "2024-01-08,Curl,,20,10,2,7,50\n").status_code == 200
    assert not PastRun.objects.exists()


@pytest.mark.parametrize("state", [State.QUEUED, State.RUNNING])
def test_a_run_is_not_forgotten_when_the_clock_is_put_back(run, called, state, django_capture_on_commit_callbacks):
    """It was queued or begun an hour ahead of what it is now, and nobody is at it."""
    ahead = timezone.now() + dt.timedelta(hours=1)
    PastRun.objects.update(state=state, queued_at=ahead, started_at=ahead)
    with django_capture_on_commit_callbacks(execute=True):
        assert past_sweep(timezone.now()) == 1
    assert (fresh(run).state, called) == (State.QUEUED, [run.pk])


def test_a_worker_that_speaks_after_the_clock_was_put_back_is_not_lost(run):
    PastRun.objects.update(state=State.RUNNING, attempt=1, started_at=timezone.now() + dt.timedelta(hours=1))
    past_signs.tell_saved(run.pk, 2, 4)
    assert past_sweep(timezone.now()) == 0
    past_signs.forget_signs(run.pk)
