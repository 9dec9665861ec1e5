"""The page on which a file becomes a program: looked at, mended, and saved only when all of it is right."""

import html
import re

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from accounts.models import AuditEntry
from programs.models import Program
from programs.services.program_export import program_json
from tests.programs.factories import make_exercise, make_library, make_program

URL = "/programs/import/"
HEAD = "Day,Exercise,Sets,Reps,RIR\n"


@pytest.fixture
def library(world):
    return make_library()


@pytest.fixture
def desk(client, world, library):
    client.force_login(world.coach)
    return client


def send(browser, content, name="my_plan.csv", **values):
    data = content if isinstance(content, bytes) else content.encode()
    return browser.post(URL, {"file": SimpleUploadedFile(name, data), **values})


def fields(answer):
    """Every input of the preview with its value, as a browser would send it again."""
    text = answer.content.decode()
    form = text[text.index('class="import-mend"') :]
    found = {}
    for tag in re.findall(r"<input [^>]*>", form):
        told = dict(re.findall(r'([\w-]+)="([^"]*)"', tag))
        if "name" in told:
            found[told["name"]] = html.unescape(told.get("value", ""))
    return found


def test_a_file_that_is_right_is_shown_and_saved_only_when_asked(desk, world):
    answer = send(desk, HEAD + "Push,Wand curl,3,8-12,1\n,Slow row,3,8,\n")
    assert answer.status_code == 200
    assert "All of it is right" in answer.content.decode()
    assert not Program.objects.exists()
    assert fields(answer)["name"] == "my plan"
    saved = desk.post(URL, {**fields(answer), "do": "save"})
    program = Program.objects.get()
    assert saved.url == reverse("program-editor", args=[program.pk])
    assert (program.name, program.author, program.practice, program.version) == (
        "my plan",
        world.coach,
        world.practice,
        1,
    )
    assert [len(day["slots"]) for day in program.document["blocks"][0]["weeks"][0]["days"]] == [2]


def test_the_audit_names_a_change_only_when_it_is_saved(desk):
    answer = send(desk, HEAD + "Push,Wand curl,3,8-12,1\n")
    assert not AuditEntry.objects.exists()
    desk.post(URL, {**fields(answer), "do": "save"})
    assert [(one.kind, one.page) for one in AuditEntry.objects.all()] == [("changed", "program-import")]


def test_errors_are_mended_on_the_page_and_then_saved(desk, library):
    answer = send(desk, HEAD + "Push,Wand crul,3,8-Dec,1\n,Slow row,,8,=A1\n")
    text = answer.content.decode()
    assert answer.status_code == 422
    for part in ("Not everything is right yet", "D2", "C3", "E3", "holds a formula", "Read them as ranges"):
        assert part in text
    assert '<option value="Wand curl">' in text
    sent = fields(answer)
    answer = desk.post(URL, {**sent, "do": "dates", "near-1": "Wand curl", "cell-1-2": "3"})
    assert sorted(name for name in fields(answer) if name.startswith("cell-")) == ["cell-1-4"]
    assert not Program.objects.exists()
    answer = desk.post(URL, {**fields(answer), "do": "save", "cell-1-4": "2"})
    assert Program.objects.count() == 1
    [day] = Program.objects.get().document["blocks"][0]["weeks"][0]["days"]
    assert [(one["exercise"], one["reps"], one["rir"]) for one in day["slots"]] == [
        (library.curl.pk, [8, 12], [1, 1]),
        (library.row.pk, [8, 8], [2, 2]),
    ]


def test_saving_what_is_not_right_saves_nothing(desk):
    answer = send(desk, HEAD + "Push,Nothing like it,3,8,1\n", do="save")
    assert answer.status_code == 422
    assert desk.post(URL, {**fields(answer), "do": "save"}).status_code == 422
    assert not Program.objects.exists()


def test_a_program_needs_a_name(desk):
    sent = fields(send(desk, HEAD + "Push,Wand curl,3,8,1\n"))
    for name in ("", " ", "x" * 121):
        answer = desk.post(URL, {**sent, "name": name, "do": "save"})
        assert answer.status_code == 422
        assert "Give the program a name" in answer.content.decode()
    assert not Program.objects.exists()


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "The file is empty."),
        (b"  \n", "The file is empty."),
        (b"a,b\n1,2\n", "No row with headings was found."),
        (b"{", "This is not JSON"),
        (b"[1]", "does not hold a program"),
        (b'{"$schema": "else"}', "later versions are not read"),
        (HEAD.encode() + b"Push,Wand curl,3,8,1\n" * 50_000, "5,000 rows are the most"),
        (b"x" * 8_000_001, "larger than 8 MB"),
    ],
)
def test_what_is_no_program_is_said_beside_the_field(desk, content, words):
    answer = send(desk, content)
    assert answer.status_code == 422
    assert words in html.unescape(answer.content.decode())


def test_no_file_and_a_damaged_preview_are_said_too(desk):
    assert "Choose a file." in desk.post(URL, {}).content.decode()
    assert "damaged on its way" in desk.post(URL, {"sheet": "[1, 2]"}).content.decode()


def test_wrong_headings_cannot_be_mended_here(desk):
    text = send(desk, "Day,Exercise,Reps,Repetitions\nA,B,3,8\n").content.decode()
    assert "heads two columns, C and D" in text
    assert "These columns are missing: Sets." in text
    assert "Check again" not in text


def test_a_json_file_comes_in_and_asks_for_what_is_not_known(desk, world, library):
    program = make_program(world, library, note="Ours.")
    text = program_json(program)
    assert desk.post(URL, {**fields(send(desk, text, "x.json")), "do": "save"}).status_code == 302
    again = Program.objects.exclude(pk=program.pk).get()
    assert program_json(again) == text
    strange = text.replace('"wand-curl"', '"stick-curl"').replace('"Wand curl"', '"Stick curl"')
    answer = send(desk, strange, "x.json")
    assert answer.status_code == 422
    answer = desk.post(URL, {**fields(answer), "type-1": "wand curl", "do": "check"})
    assert answer.status_code == 200
    assert desk.post(URL, {**fields(answer), "do": "save"}).status_code == 302
    assert Program.objects.order_by("pk").last().document == program.document


def test_many_wrong_cells_are_counted_and_the_first_hundred_shown(desk):
    text = send(desk, HEAD + "Push,Wand curl,x,8,1\n" * 300).content.decode()
    assert "300 cells to mend" in text
    assert "The first 100 are shown." in text
    assert text.count('name="cell-') == 100


def test_exercises_of_another_practice_are_not_known_nor_proposed(desk, world, library):
    make_exercise("Wand curl of theirs", {library.bi: 1}, practice=world.outsider_membership.practice)
    text = send(desk, HEAD + "Push,Wand curl of theirs,3,8,1\n").content.decode()
    assert "not known here" in text
    assert '<option value="Wand curl of theirs">' not in text


def test_the_preview_asks_as_often_for_few_rows_as_for_many(desk, django_assert_num_queries):
    # session, user, membership, exercises
    with django_assert_num_queries(4):
        send(desk, HEAD + "Push,Wand curl,3,8,1\n")
    with django_assert_num_queries(4):
        send(desk, HEAD + "".join(f"Day {n % 7},Wand curl,3,8,1\n" for n in range(200)))


@pytest.mark.parametrize("kind", ["csv", "xlsx"])
def test_a_program_and_the_template_leave_as_tables_that_come_in_again(desk, world, library, kind):
    program = make_program(world, library, weeks=2)
    for url in (reverse("program-file", args=[program.pk, kind]), reverse("program-template", args=[kind])):
        answer = desk.get(url)
        assert f'.{kind}"' in answer["Content-Disposition"]
        assert send(desk, answer.content, f"x.{kind}").status_code == 200


def test_a_kind_of_file_that_there_is_not_is_not_found(desk, world, library):
    program = make_program(world, library)
    assert desk.get(reverse("program-file", args=[program.pk, "exe"])).status_code == 404
    assert desk.get(reverse("program-template", args=["json"])).status_code == 404


def test_the_page_of_files_and_the_list_lead_there(desk, world, library):
    program = make_program(world, library)
    assert URL in desk.get(reverse("program-list")).content.decode()
    text = desk.get(reverse("program-export", args=[program.pk])).content.decode()
    for kind in ("json", "csv", "xlsx"):
        assert reverse("program-file", args=[program.pk, kind]) in text
