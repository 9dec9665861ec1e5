"""An export holds everything, outside readers read it, and an empty practice can be filled from it."""

import csv
import io
import json
import zipfile

import jsonschema
import pytest
from django.apps import apps

from accounts.models import Client, Membership, Practice, User
from coaching.backup.contents import kept_models
from coaching.models import CoachNote, WeekSummary
from coaching.portable.read import Unreadable, import_practice
from coaching.portable.scope import BY_MODEL, NOT_EXPORTED, TABLES
from coaching.portable.write import export
from coaching.recompute import run
from logbook.models import SetLog
from programs.models import Program
from tests.coaching import factories as make
from tests.conftest import make_member

pytestmark = pytest.mark.django_db
DERIVED = {table.name for table in TABLES if table.derived}


@pytest.fixture
def trained(world, exercises):
    make.train(world.client, world.coach, exercises, weeks=3, seed=3)
    make.report_pain(world.client.sessions.order_by("-date").first(), exercises["curl"], 3)
    make.train(world.other_client, world.colleague, exercises, weeks=2, seed=4)
    CoachNote.objects.create(client=world.client, author=world.coach, text="Sleeps badly.")
    document = {"blocks": [{"key": "b", "name": "B", "weeks": [{"key": "w", "deload": False, "note": "", "days": [
        {"key": "d", "name": "D", "slots": [{"key": "s", "exercise": exercises["curl"].pk}]}]}]}]}  # fmt: skip
    Program.objects.create(practice=world.practice, author=world.coach, name="=Arms", document=document)
    for client in (world.client, world.other_client):
        run.work_off(client.pk)
    return world


def written(practice, tmp_path, name="export.zip", **options):
    path = tmp_path / name
    path.write_bytes(b"".join(export(practice, **options)))
    return path


def members(path):
    with zipfile.ZipFile(path) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def table(path, name):
    return json.loads(members(path)[f"json/{name}.json"])


def test_every_model_is_exported_or_has_a_reason_not_to_be():
    ours = {
        model for model in kept_models() if model._meta.app_label in ("accounts", "programs", "logbook", "coaching")
    }
    library = {model for model in ours if model._meta.label in LIBRARY}
    assert {model._meta.label for model in ours - library - set(BY_MODEL)} == set(NOT_EXPORTED)


# The same in every installation (`load_library`).
LIBRARY = {f"programs.{name}" for name in ("MuscleGroup", "JointAction", "Muscle", "Head", "Limit", "Reference")}


def test_no_secret_is_written(trained, tmp_path):
    whole = b"".join(members(written(trained.practice, tmp_path)).values())
    assert trained.coach.password.encode() not in whole
    assert b"password" not in b"".join(members(written(trained.practice, tmp_path)).values()).lower()


def test_each_table_is_what_its_schema_in_the_dictionary_says(trained, tmp_path):
    found = members(written(trained.practice, tmp_path))
    dictionary = json.loads(found["dictionary.json"])
    for name, told in dictionary.items():
        jsonschema.Draft202012Validator.check_schema(told["schema"])
        jsonschema.validate(json.loads(found[f"json/{name}.json"]), told["schema"], cls=jsonschema.Draft202012Validator)
        assert set(told["columns"]) == set(told["schema"]["items"]["properties"])
    assert dictionary["sets"]["columns"]["load_kg"]["unit"] == "kg"


def test_each_table_reads_the_same_from_csv(trained, tmp_path):
    found = members(written(trained.practice, tmp_path))
    for name in json.loads(found["dictionary.json"]):
        rows = list(csv.DictReader(io.StringIO(found[f"csv/{name}.csv"].decode("utf-8-sig"), newline="")))
        objects = json.loads(found[f"json/{name}.json"])
        assert len(rows) == len(objects)
        for row, whole in zip(rows, objects, strict=True):
            assert set(row) == set(whole)
            assert row.get("id") == (str(whole["id"]) if "id" in whole else None)


def test_a_formula_in_a_name_stays_text_in_the_spreadsheet(trained, tmp_path):
    found = members(written(trained.practice, tmp_path))
    assert b"'=Arms" in found["csv/programs.csv"]
    assert json.loads(found["json/programs.json"])[0]["name"] == "=Arms"


def test_a_programs_exercises_are_named_and_not_numbered(trained, tmp_path, exercises):
    [program] = table(written(trained.practice, tmp_path), "programs")
    slot = program["document"]["blocks"][0]["weeks"][0]["days"][0]["slots"][0]
    assert slot["exercise"] == "curl"


def test_a_clients_export_holds_their_rows_alone(trained, tmp_path):
    path = written(trained.practice, tmp_path, client=trained.client)
    assert {row["email"] for row in table(path, "people")} == {trained.client.user.email, trained.coach.email}
    assert len(table(path, "sets")) == SetLog.objects.filter(client=trained.client).count()
    assert trained.other_client.user.email.encode() not in b"".join(members(path).values())


def test_a_client_never_gets_the_coaches_notes(trained, tmp_path):
    path = written(trained.practice, tmp_path, client=trained.client, for_client=True)
    assert b"Sleeps badly" not in b"".join(members(path).values())
    assert b"Sleeps badly" in b"".join(members(written(trained.practice, tmp_path, client=trained.client)).values())


def elsewhere(world):
    """Empty this database of the practice, as a new installation is, and return the owner's new, empty practice."""
    Practice.objects.filter(pk=world.practice.pk).delete()
    User.objects.filter(email__in=[world.client.user.email, world.other_client.user.email, world.coach.email]).delete()
    practice = Practice.objects.create(name=world.practice.name, require_coach_mfa=False)
    Membership.objects.create(practice=practice, user=world.owner, role="owner", started_on=make.monday(60))
    return practice


def test_export_import_export_is_identical(trained, tmp_path):
    before = written(trained.practice, tmp_path)
    since = trained.practice.memberships.get(user=trained.owner).started_on
    practice = elsewhere(trained)
    practice.memberships.update(started_on=since)
    counts = import_practice(before, practice=practice)
    assert counts["sets"] == SetLog.objects.count() > 50
    for client in practice.clients.all():
        run.work_off(client.pk)
    first, second = members(before), members(written(practice, tmp_path, "again.zip"))
    assert [name for name in first if first[name] != second[name]] == []
    assert WeekSummary.objects.exists()


def test_a_load_that_was_said_to_be_right_is_so_after_the_move(trained, tmp_path):
    said = SetLog.objects.filter(client=trained.client).order_by("pk").first().pk
    SetLog.objects.filter(pk=said).update(confirmed=True)
    before = written(trained.practice, tmp_path)
    assert [row["id"] for row in table(before, "sets") if row["confirmed"]] == [str(said)]
    import_practice(before, practice=elsewhere(trained))
    assert SetLog.objects.get(confirmed=True).pk == said


def test_people_who_come_by_an_import_have_no_password(trained, tmp_path):
    before = written(trained.practice, tmp_path)
    import_practice(before, practice=elsewhere(trained))
    assert not User.objects.get(email=trained.client.user.email).has_usable_password()


def test_an_import_into_a_practice_with_clients_is_refused(trained, tmp_path):
    with pytest.raises(Unreadable, match="empty"):
        import_practice(written(trained.practice, tmp_path), practice=trained.practice)


def test_an_import_that_is_there_already_is_refused_and_changes_nothing(trained, tmp_path):
    before = written(trained.practice, tmp_path)
    empty = Practice.objects.create(name="Empty")
    make_member(empty, "ewa", "owner")
    clients = Client.objects.count()
    with pytest.raises(Unreadable):
        import_practice(before, practice=empty)
    assert Client.objects.count() == clients
    assert empty.memberships.count() == 1


@pytest.mark.parametrize(
    ("name", "content", "told"),
    [
        ("manifest.json", b"{}", "not the export"),
        ("manifest.json", b"{", "cannot be read"),
        ("json/sets.json", b'[{"id": 1}]', "sets, row 1"),
        ("json/sets.json", b"no json", "cannot be read"),
    ],
)
def test_a_broken_export_is_refused_in_words_and_changes_nothing(trained, tmp_path, name, content, told):
    path = written(trained.practice, tmp_path)
    found = members(path) | {name: content}
    with zipfile.ZipFile(path, "w") as archive:
        for each, data in found.items():
            archive.writestr(each, data)
    practice = elsewhere(trained)
    with pytest.raises(Unreadable, match=told):
        import_practice(path, practice=practice)
    assert not practice.clients.exists()
    assert not User.objects.filter(email=trained.coach.email).exists()


def test_the_first_bytes_leave_before_the_tables_are_read(trained, django_assert_num_queries):
    with django_assert_num_queries(0):
        assert next(iter(export(trained.practice)))


def test_models_of_the_library_are_in_every_installation():
    assert {model._meta.label for model in apps.get_models()} >= LIBRARY
