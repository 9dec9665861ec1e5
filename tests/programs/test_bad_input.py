"""What cannot be is answered on the page in words, and nothing of it is kept."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from programs.models import Fitting, PlannedSession, Program
from programs.services.program_write import program_create
from tests.programs.factories import document, make_library, make_program, slot

HTMX = {"HX-Request": "true"}


@pytest.fixture
def library(world):
    return make_library()


@pytest.fixture
def desk(client, world, library):
    client.force_login(world.coach)
    return client


@pytest.fixture
def program(world, library):
    return make_program(world, library)


def change(desk, program, do, **fields):
    url = reverse("program-change", args=[program.pk])
    return desk.post(url, {"do": do, "base_version": program.version, "week": "w1", **fields}, headers=HTMX)


@pytest.mark.parametrize(
    ("do", "fields", "field", "words"),
    [
        ("prescribe;slot=w1s1", {"reps": "12-8"}, "reps", "from the smaller number"),
        ("prescribe;slot=w1s1", {"text": "3 x 12-8"}, "text", "from the smaller number"),
        ("prescribe;slot=w1s1", {"sets": "0"}, "sets", "between 1 and 20"),
        ("ramp;block=b1", {"weeks": "0", "deload": "yes"}, "weeks", "2 to 26"),
        ("ramp;block=b1", {"weeks": "0"}, "weeks", "1 to 26"),
    ],
)
def test_what_cannot_be_written_is_said_beside_its_field(desk, program, do, fields, field, words):
    before = program.document
    reply = change(desk, program, do, **fields)
    assert reply.status_code == 422
    told = reply.json()
    assert told["field"] == field
    assert words in told["message"]
    program.refresh_from_db()
    assert (program.version, program.document) == (1, before)


def test_the_thirty_first_exercise_of_a_day_is_refused(desk, world, library):
    full = document([slot(f"s{number}", library.curl.pk) for number in range(30)])
    program = program_create(practice=world.practice, author=world.coach, name="Full", document=full)
    reply = change(desk, program, "add-slot;day=w1d1", exercise=library.curl.pk)
    assert reply.status_code == 422
    assert "30" in reply.json()["message"]
    program.refresh_from_db()
    assert program.version == 1


@pytest.mark.parametrize("kind", ["table", "json"])
def test_a_file_of_50000_rows_is_refused_in_words(desk, library, kind):
    table = "Day,Exercise,Sets,Reps\n" + "Push,Wand curl,3,8\n" * 50_000
    slots = '{"key":"s","exercise":"curl"},' * 50_000
    told = '{"$schema":"urn:sinewright:program:1","name":"x","exercises":[{"id":"curl","name":"Wand curl"}],"blocks":['
    whole = told + '{"key":"b","weeks":[{"key":"w","days":[{"key":"d","slots":[' + slots[:-1] + "]}]}]}]}"
    data = (table if kind == "table" else whole).encode()
    reply = desk.post(reverse("program-import"), {"file": SimpleUploadedFile("x.csv", data)})
    assert reply.status_code == 422
    assert "rows are the most" in reply.text if kind == "table" else "is the most" in reply.text
    assert not Program.objects.exists()


def test_a_program_without_an_exercise_is_not_assigned_and_an_empty_day_is_no_session(desk, world, library):
    when = {"starts_on": "2030-01-07", "weekday_0": 0, "weekday_1": 3, "client": world.client.pk}
    empty = program_create(practice=world.practice, author=world.coach, name="Empty")
    reply = desk.post(reverse("program-assign", args=[empty.pk]), when)
    assert reply.status_code == 422
    assert not Fitting.objects.exists()
    half = document([slot("s1", library.curl.pk)], [])
    program = program_create(practice=world.practice, author=world.coach, name="Half", document=half)
    begun = desk.post(reverse("program-assign", args=[program.pk]), when)
    desk.post(f"{begun.url}assign/")
    assert [one.day_number for one in PlannedSession.objects.all()] == [1]
