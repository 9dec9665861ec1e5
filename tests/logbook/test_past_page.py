"""Past training from a file: looked at, mended, saved whole; the same file again adds nothing; it can be taken back."""

import datetime as dt
import html
import re

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from logbook.models import BodyMass, CheckIn, Comment, LogImport, RecomputeRequest, Session, SetLog
from logbook.past.reading import HowToRead
from logbook.services import past_save
from logbook.services.past_save import past_import
from tests.logbook.conftest import signed_in
from tests.logbook.factories import make_exercise, set_data
from tests.logbook.past_fixture import sets_table

URL = "/you/past/"
HEAD = "Date,Exercise,Side,Load,Reps,RIR,Session RPE,Minutes\n"
GOOD = HEAD + "2024-01-08,Curl,,20,10,2,7,50\n,,,20,9,1,,\n2024-01-10,One arm row,left,12.5,8,,,\n,,right,12.5,8,,,\n"


@pytest.fixture
def listening(monkeypatch):
    """What was announced to the worker; nothing is computed."""
    from logbook.signals import recompute_requested

    told = []
    monkeypatch.setattr(recompute_requested, "send", lambda sender, **values: told.append(values))
    return told


def send(browser, text, url=URL, **values):
    return browser.post(url, {"file": SimpleUploadedFile("old_log.csv", text.encode()), **values})


def fields(answer):
    """Every input of the preview with its value, as a browser would send it again."""
    text = answer.content.decode()
    found = {}
    for tag in re.findall(r"<input [^>]*>", text[text.index('class="import-mend"') :]):
        told = dict(re.findall(r'([\w-]+)="([^"]*)"', tag))
        if "name" in told and told.get("type") not in ("radio", "checkbox"):
            found[told["name"]] = html.unescape(told.get("value", ""))
    return found


def bring(browser, text, url=URL, **values):
    """Send a file, look, and save; return the answer to saving."""
    return browser.post(url, {**fields(send(browser, text, url, **values)), **values, "do": "save"}, follow=True)


def test_nothing_is_saved_until_asked_and_then_all_of_it(gym, phone, listening, django_capture_on_commit_callbacks):
    answer = send(phone, GOOD)
    assert answer.status_code == 200
    assert "All of it is right" in answer.content.decode()
    assert not Session.objects.exists()
    with django_capture_on_commit_callbacks(execute=True):
        phone.post(URL, {**fields(answer), "do": "save"})
    done = LogImport.objects.get()
    assert (done.by, done.client, done.file_name) == (gym.client.user, gym.client, "old_log.csv")
    assert (done.sets, done.sessions, done.first_day) == (4, 2, dt.date(2024, 1, 8))
    first, second = Session.objects.order_by("date")
    assert (first.session_rpe, first.minutes, first.imported) == (7.0, 50, done)
    assert second.finished_at is not None
    assert [(row.number, row.load, row.unit, row.reps, row.rir) for row in first.sets.order_by("performed_at")] == [
        (1, 20.0, "kg", 10, 2.0),
        (2, 20.0, "kg", 9, 1.0),
    ]
    assert RecomputeRequest.objects.get().since == dt.date(2024, 1, 8)
    assert listening == [{"client_id": gym.client.pk, "large": True}]


def test_a_coach_brings_it_in_for_a_client_and_the_record_says_so(gym):
    bring(signed_in(gym.coach), GOOD, reverse("client-past", args=[gym.client.pk]))
    done = LogImport.objects.get()
    assert (done.by, done.client) == (gym.coach, gym.client)
    assert set(SetLog.objects.values_list("client", flat=True)) == {gym.client.pk}


def test_cells_and_names_are_mended_on_the_page(gym, phone):
    answer = send(phone, HEAD + "2024-01-08,Crul,,20,8-12,,,\n,One arm row,,20,8,,,\n")
    text = answer.content.decode()
    assert answer.status_code == 422
    for part in ("Not everything is right yet", "E2", "C3", "write left or right", '<option value="Curl">'):
        assert part in text
    mended = {**fields(answer), "near-1": "Curl", "cell-0-4": "8", "cell-1-2": "left"}
    answer = phone.post(URL, {**mended, "do": "save"})
    assert answer.status_code == 302
    assert SetLog.objects.count() == 2


def test_the_order_of_dates_is_asked_and_the_answer_kept(gym, phone):
    text = "Date,Exercise,Load,Reps\n5/6/2023,Curl,20,8\n"
    answer = send(phone, text)
    assert answer.status_code == 422
    assert "Which comes first" in answer.content.decode()
    answer = phone.post(URL, {**fields(answer), "order": "mdy", "unit": "lb", "do": "check"})
    assert "All of it is right" in answer.content.decode()
    phone.post(URL, {**fields(answer), "order": "mdy", "unit": "lb", "do": "save"})
    row = SetLog.objects.get()
    assert (row.session.date, row.unit, row.load) == (dt.date(2023, 5, 6), "lb", 20.0)


def test_a_heavy_load_needs_a_second_word(gym, phone):
    text = "Date,Exercise,Load,Reps\n2024-01-08,Curl,700,8\n"
    answer = send(phone, text)
    assert "Really?" in answer.content.decode()
    assert phone.post(URL, {**fields(answer), "do": "save"}).status_code == 422
    phone.post(URL, {**fields(answer), "do": "save", "sure": "1"})
    assert SetLog.objects.get().load == 700


def test_the_same_file_again_adds_nothing(gym, phone):
    bring(phone, GOOD)
    ids = set(SetLog.objects.values_list("pk", flat=True))
    answer = send(phone, GOOD)
    assert "Nothing new in this file" in answer.content.decode()
    phone.post(URL, {**fields(answer), "do": "save"})
    assert set(SetLog.objects.values_list("pk", flat=True)) == ids
    assert LogImport.objects.count() == 1


def test_what_is_logged_already_is_left_out_and_said(gym, phone):
    at = dt.datetime(2024, 1, 8, 12, tzinfo=dt.UTC)
    session = gym.start(at)
    gym.log(session, at=at, number=1, load=20, reps=10)
    gym.log(session, at=at, number=2, load=25, reps=9)
    text = send(phone, GOOD).content.decode()
    assert "1 set is logged already and is left out (row 2)" in text
    assert "The log stands (row 3)" in text
    bring(phone, GOOD)
    assert SetLog.objects.count() == 4
    assert LogImport.objects.get().skipped == 2


def test_a_longer_file_fills_up_the_sessions_of_a_shorter_one(gym, phone):
    bring(phone, GOOD)
    bring(phone, GOOD.replace("2024-01-10", ",,,20,8,,,\n2024-01-10"))
    assert Session.objects.count() == 2
    assert SetLog.objects.count() == 5


def in_order(session):
    return [(row.exercise.name, row.number, row.reps) for row in session.sets.select_related("exercise")]


def test_what_is_added_later_stands_after_the_rows_of_the_file_by_number(gym, phone):
    text = "Date,Exercise,Load,Reps\n2024-01-08,Curl,20,10\n,Curl,20,9\n"
    bring(phone, text)
    session = Session.objects.get()
    now = timezone.now()
    # Two devices: the second of the new sets comes first.
    for number, reps in ((4, 7), (3, 8)):
        gym.apply("set.record", now, now=now, **set_data(session.pk, gym.curl, number=number, reps=reps))
    assert in_order(session) == [("Curl", 1, 10), ("Curl", 2, 9), ("Curl", 3, 8), ("Curl", 4, 7)]
    # A longer file fills the session up: after all that stands.
    make_exercise("press", "barbell")
    bring(phone, text + ",Press,40,6\n,Press,40,5\n")
    assert in_order(session)[4:] == [("Press", 1, 6), ("Press", 2, 5)]
    assert len(set(session.sets.values_list("performed_at", flat=True))) == 5


def test_two_sessions_of_one_day_are_told_apart_by_their_name(gym, phone):
    text = "Date,Session,Exercise,Load,Reps\n2024-01-08,am,Curl,20,8\n,pm,Curl,20,8\n"
    bring(phone, text)
    assert sorted(Session.objects.values_list("note", flat=True)) == ["am", "pm"]
    assert "Nothing new" in send(phone, text).content.decode()


def test_an_import_is_taken_back_whole(gym, phone):
    kept = gym.log(gym.start())
    bring(phone, GOOD)
    done = LogImport.objects.get()
    phone.post(reverse("past-take-back", args=[done.pk]))
    done.refresh_from_db()
    assert done.taken_back_by == gym.client.user
    assert [row.pk for row in SetLog.objects.all()] == [kept]
    assert Session.objects.count() == 1
    bring(phone, GOOD)
    assert SetLog.objects.count() == 5


@pytest.mark.parametrize("touch", ["edit", "delete", "comment", "add"])
def test_an_import_of_which_something_was_changed_stays(gym, phone, touch):
    bring(phone, GOOD)
    done = LogImport.objects.get()
    row = SetLog.objects.filter(exercise=gym.curl).first()
    now = timezone.now()
    if touch == "edit":
        gym.apply("set.edit", now, set=row.pk, load=22.5, unit="kg", reps=10, rir=2)
    elif touch == "delete":
        gym.apply("set.delete", now, set=row.pk)
    elif touch == "comment":
        Comment.objects.create(client=gym.client, session=row.session, author=gym.coach, text="Good.", written_at=now)
    else:
        gym.log(row.session_id, at=now, number=9)
    before = SetLog.objects.count()
    answer = phone.post(reverse("past-take-back", args=[done.pk]), follow=True)
    assert "What was brought in stays." in answer.content.decode()
    assert SetLog.objects.count() == before
    # And the file again does not bring back what was changed or taken out.
    bring(phone, GOOD)
    assert SetLog.objects.count() == before


def test_a_day_that_the_phone_writes_meanwhile_stands_and_nothing_is_saved(gym, phone, monkeypatch):
    """The phone does not wait for the import: its body mass is there after the table was compared with the log."""
    compare = past_save.past_compare

    def while_compared(plan, client):
        found = compare(plan, client)
        BodyMass.objects.create(client=client, date=dt.date(2024, 1, 9), mass=70, mass_kg=70, edited_at=timezone.now())
        return found

    monkeypatch.setattr(past_save, "past_compare", while_compared)
    answer = bring(phone, "Date,Body mass\n2024-01-08,71\n2024-01-09,72\n")
    assert answer.status_code == 422
    assert "has changed meanwhile" in answer.content.decode()
    assert not LogImport.objects.exists()


def test_check_ins_and_body_mass_of_days_that_have_none(gym, phone):
    BodyMass.objects.create(client=gym.client, date=dt.date(2024, 1, 9), mass=70, mass_kg=70, edited_at=timezone.now())
    text = "Date,Fatigue,Sleep,Soreness,Stress,Mood,Body mass\n2024-01-08,3,4,3,4,4,71.5\n2024-01-09,,,,,,90\n"
    assert "which stands (row 3)" in send(phone, text).content.decode()
    bring(phone, text)
    assert CheckIn.objects.get().total == 18
    assert sorted(BodyMass.objects.values_list("mass_kg", flat=True)) == [70, 71.5]
    phone.post(reverse("past-take-back", args=[LogImport.objects.get().pk]))
    assert not CheckIn.objects.exists()
    assert BodyMass.objects.count() == 1


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("", "The submitted file is empty|The file is empty|Choose a file"),
        ("Hello\nWorld\n", "No row with headings"),
        ("Date,Load,Note\n2024-01-08,20,x\n", "These columns are missing: Exercise, Reps"),
    ],
)
def test_a_file_that_is_no_table_is_refused(gym, phone, text, why):
    answer = send(phone, text)
    assert answer.status_code == 422
    assert re.search(why, answer.content.decode())


def test_the_templates_can_be_brought_in_as_they_are(gym, phone):
    make_exercise("press", "barbell")
    for layout in ("sets", "days"):
        for kind in ("csv", "xlsx"):
            data = phone.get(reverse("past-template", args=[layout, kind])).content
            answer = phone.post(URL, {"file": SimpleUploadedFile(f"x.{kind}", data)})
            assert (layout, kind, answer.status_code) == (layout, kind, 200)
    assert phone.get("/past/template/sets.pdf").status_code == 404


def rows_of(*days):
    return sets_table("Date | Exercise | Load | Reps", *(f"{day} | Curl | 20 | 8" for day in days))


def queries(act):
    with CaptureQueriesContext(connection) as found:
        act()
    return len(found)


def test_pages_cost_the_same_with_few_and_with_many_rows(gym, phone):
    def past(*days):
        how = HowToRead(unit="kg", today=dt.date(2024, 5, 15))
        past_import(client=gym.client, by=gym.coach, table=rows_of(*days), how=how, file_name="x.csv")

    def text(days):
        return "Date,Exercise,Load,Reps\n" + "".join(f"2023-03-{day:02},Curl,20,8\n" for day in range(1, days))

    few_saved = queries(lambda: past("2023-01-01"))
    few = queries(lambda: phone.get(URL)), queries(lambda: send(phone, text(2)))
    many_saved = queries(lambda: past(*(f"2023-0{month}-{day:02}" for month in range(4, 10) for day in range(1, 28))))
    for day in range(1, 8):
        past(f"2023-02-0{day}")
    assert (queries(lambda: phone.get(URL)), queries(lambda: send(phone, text(28)))) == few
    assert max(few) <= 12
    # Rows are written many at a time; SQLite takes fewer at once than PostgreSQL.
    assert few_saved <= 24
    assert many_saved - few_saved <= 2 * 162 // 40
