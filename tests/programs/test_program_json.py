"""Programs as JSON: out and in again without a difference, and anything else is refused with its place."""

import json
from pathlib import Path

import pytest
from django.conf import settings
from django.urls import reverse
from hypothesis import given
from hypothesis import settings as bounded
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from accounts.models import Practice
from programs.document import DocumentError, document_from_json, document_to_json
from programs.exchange.json_read import load_json, read_program
from programs.exchange.json_write import ABOUT, exercise_ids, walk_slots, with_references, write_program
from programs.models import GRADE_NAMES, Equipment, Exercise, Program
from programs.services.exercise_save import CreditInput, exercise_save
from programs.services.program_export import program_json
from programs.services.program_import import json_import, json_plan, numbered_blocks
from programs.services.program_write import program_create
from programs.sheets.errors import FileError
from tests.programs.factories import document, slot
from tests.programs.random_documents import EXERCISES, abouts, definitions, documents, equipments

SCHEMA = json.loads((Path(settings.BASE_DIR) / "docs/formats/program-1.schema.json").read_text(encoding="utf-8"))
VALIDATOR = Draft202012Validator(SCHEMA)
GRADES = tuple(f"grade_{name}" for name in GRADE_NAMES)
OWN = "own/arms-special"
NUMBERS = {reference: pk for pk, reference in EXERCISES.items()}


def text_of(doc, about=None, own=None, bar=None):
    about = about or {"name": "Arms", "note": "", "written_for": "novice", "weekdays": [0, 3]}
    told = {reference: {"name": reference.title()} for reference in EXERCISES.values()}
    if own:
        told[OWN] = {**told[OWN], "definition": own}
    return write_program(about, document_to_json(doc), EXERCISES, told, {"own/yard-bar": bar} if bar else {})


@st.composite
def texts(draw):
    """Draw a file with everything that one can hold."""
    return text_of(draw(documents()), draw(abouts()), draw(definitions()), draw(st.none() | equipments()))


@bounded(deadline=None, max_examples=60)
@given(texts())
def test_a_program_comes_back_the_same_to_the_byte_and_fits_the_schema(text):
    VALIDATOR.validate(json.loads(text))
    file = read_program(load_json(text))
    again = document_from_json({"blocks": with_references(file.blocks, NUMBERS)})
    about = {name: getattr(file, name) for name in ABOUT}
    own = file.exercises[OWN].definition if OWN in file.exercises else None
    bar = {name: value for name, value in file.equipment.get("own/yard-bar", {}).items() if name != "id"}
    # Only the exercises that the blocks name stand in a file.
    assert text_of(again, about, own, bar) == text


def test_what_is_drawn_fills_every_field_of_the_schema():
    """A field that the tests above never draw could be lost on the way, and nobody would know."""
    drawn = set()

    @bounded(deadline=None, max_examples=150, database=None, derandomize=True)
    @given(texts())
    def draw(text):
        drawn.update(_filled(json.loads(text), SCHEMA))

    draw()
    wanted = {(name, field) for name, part in SCHEMA["$defs"].items() for field in part.get("properties", {})}
    wanted |= {("", field) for field in SCHEMA["properties"]}
    assert not wanted - drawn


def _filled(value, part, name=""):
    """Return (part of the schema, field) for each field that says something: no empty text, list or flag."""
    if "$ref" in part:
        name = part["$ref"].rpartition("/")[2]
        yield from _filled(value, SCHEMA["$defs"][name], name)
    for way in part.get("oneOf", ()):
        if "$ref" in way and isinstance(value, dict):
            yield from _filled(value, way)
    for field, inner in part.get("properties", {}).items():
        if isinstance(value, dict) and value.get(field):
            yield name, field
            yield from _filled(value[field], inner, name)
    for one in value if isinstance(value, list) and isinstance(part.get("items"), dict) else ():
        yield from _filled(one, part["items"], name)
    more = part.get("additionalProperties")
    for one in value.values() if isinstance(value, dict) and isinstance(more, dict) else ():
        yield from _filled(one, more, name)


@bounded(deadline=None, max_examples=120)
@given(documents(), st.data())
def test_what_the_schema_refuses_is_refused(doc, data):
    whole = json.loads(text_of(doc))
    places = list(_places(whole))
    holder, name = data.draw(st.sampled_from(places))
    holder[name] = data.draw(st.sampled_from([None, True, -1, 10**6, "x" * 200, "", [], {}, [12, 8, 1], {"key": "k"}]))
    try:
        file = read_program(load_json(json.dumps(whole)))
        document_from_json({"blocks": numbered_blocks(file, NUMBERS)})
    except (FileError, DocumentError):
        return
    assert VALIDATOR.is_valid(whole)


@pytest.mark.parametrize("strange", [[], {}, ["curl"], None, 7, "no-such-thing"])
def test_an_exercise_that_is_no_name_is_refused(strange):
    """Found by hypothesis with another seed: a list is no key of a dictionary."""
    whole = json.loads(text_of(document_from_json(document([slot("a", 1)]))))
    whole["blocks"][0]["weeks"][0]["days"][0]["slots"][0]["exercise"] = strange
    file = read_program(load_json(json.dumps(whole)))
    with pytest.raises(DocumentError, match="not in the list"):
        numbered_blocks(file, NUMBERS)


def _places(value):
    for name, inner in value.items() if isinstance(value, dict) else enumerate(value):
        yield value, name
        if isinstance(inner, dict | list):
            yield from _places(inner)


@bounded(deadline=None, max_examples=150)
@given(st.text(max_size=300) | st.recursive(st.none() | st.integers() | st.text(max_size=5), st.lists).map(json.dumps))
def test_no_text_leads_to_anything_but_a_program_or_a_sentence(text):
    try:
        read_program(load_json(text))
    except (FileError, DocumentError):
        return


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[1]", "does not hold a program"),
        ("{", "line 1, column 2"),
        ('{"a": NaN}', "NaN"),
        ('{"a": 1, "a": 2}', "given twice: a"),
        ("[" * 200_000, "nested too deeply"),
        ('{"a": ' + "9" * 5000 + "}", "not JSON"),
        ('{"a": "\\ud800"}', "character"),
        ('{"a": "\\u0000"}', "character"),
        ('{"a": "' + "x" * 2_000_001 + '"}', "2 MB"),
    ],
)
def test_what_is_no_file_of_ours_is_said(text, said):
    with pytest.raises(FileError, match=said):
        load_json(text)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"$schema": "urn:sinewright:program:2"}, "later versions"),
        ({"name": " "}, "name: is empty"),
        ({"weekdays": [0, 0]}, "weekdays: names a day twice"),
        ({"colour": "red"}, "not known: colour"),
        ({"exercises": [{"id": "../x"}]}, r"exercises\[0\].id: must be a slug"),
        ({"exercises": [{"id": "a"}, {"id": "a"}]}, "names a twice"),
        ({"exercises": [{"id": "a", "definition": {}}]}, "own exercise"),
    ],
)
def test_a_part_that_is_wrong_is_named(change, said):
    with pytest.raises(DocumentError, match=said):
        read_program({"$schema": "urn:sinewright:program:1", "name": "Arms", "blocks": [], **change})


def test_the_schema_is_sound_and_published(client):
    Draft202012Validator.check_schema(SCHEMA)
    answer = client.get(reverse("program-schema"))
    assert json.loads(b"".join(answer.streaming_content)) == SCHEMA


@pytest.fixture
def own(world, library):
    """An own exercise on own equipment, as a practice would make it."""
    ladder = library.equipment("barbell").ladder
    bar = Equipment.objects.create(
        practice=world.practice, slug="yard-bar", name="Yard bar", kind="plates", ladder=ladder
    )
    copied = library.exercise("cable-triceps-pushdown")
    columns = {name: getattr(copied, name) for name in ("cues", "cautions", "set_up", "rest_s", "grade_reasons")}
    columns |= dict.fromkeys(GRADES, 4)
    return exercise_save(
        practice=world.practice,
        columns={**columns, "name": "Yard press-down", "equipment": bar},
        actions=copied.actions.all(),
        credits=[CreditInput(row.head_id, row.credit) for row in copied.credits.all()],
        limits=copied.limits.all(),
    )


@pytest.fixture
def program(world, library, own):
    content = document([slot("s1", library.exercise("cable-triceps-pushdown").pk), slot("s2", own.pk)], weeks=2)
    return program_create(practice=world.practice, author=world.coach, name="Arms", note="Ours.", document=content)


def brought(text, practice, author, **choices):
    plan = json_plan(read_program(load_json(text)), practice, choices)
    return json_import(plan=plan, practice=practice, author=author, name=plan.file.name)


def test_brought_in_again_here_it_is_the_same_and_adds_no_exercise(world, program):
    before = Exercise.objects.count()
    again = brought(program_json(program), world.practice, world.coach)
    assert again.pk != program.pk
    assert program_json(again) == program_json(program)
    assert Exercise.objects.count() == before


def test_brought_in_elsewhere_own_exercises_come_along_whole(world, program, own):
    there = world.outsider_membership.practice
    again = brought(program_json(program), there, world.outsider)
    assert program_json(again) == program_json(program)
    made = Exercise.objects.get(practice=there, slug=own.slug)
    assert (made.equipment.practice, made.equipment.ladder) == (there, own.equipment.ladder)
    assert {(one.head_id, one.credit) for one in made.credits.all()} == {
        (one.head_id, one.credit) for one in own.credits.all()
    }
    assert set(made.limits.all()) == set(own.limits.all())


def test_an_own_exercise_of_the_same_name_is_taken_and_not_changed(world, program, own):
    there = world.outsider_membership.practice
    cable = Equipment.objects.get(practice=None, slug="cable")
    columns = {"name": "yard PRESS down", "slug": "another", "equipment": cable, **dict.fromkeys(GRADES, 3)}
    theirs = exercise_save(practice=there, columns=columns, actions=[], credits=[])
    plan = json_plan(read_program(load_json(program_json(program))), there, {})
    assert plan.chosen["own/yard-press-down"] == theirs.pk
    assert "taken by its name" in plan.notes[0]
    assert not plan.added


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("actions", ["wing-flap"], "not known here: wing-flap"),
        ("credits", {"no-head": 1}, "not known here: no-head"),
        ("equipment", "own/none", "not known here: own/none"),
        ("cautions", [], "cautions is empty"),
        ("credits", {}, "no head gets half a set"),
    ],
)
def test_an_own_exercise_that_breaks_a_rule_is_not_taken(world, program, field, value, said):
    data = json.loads(program_json(program))
    told = next(one for one in data["exercises"] if "definition" in one)
    told["definition"][field] = value
    if field == "credits":
        told["definition"].update(long_heads=[], long_by={})
    plan = json_plan(read_program(data), world.outsider_membership.practice, {})
    assert said in plan.problem
    assert not plan.is_right


def test_nothing_is_half_saved(world, program, monkeypatch):
    there = world.outsider_membership.practice
    plan = json_plan(read_program(load_json(program_json(program))), there, {})
    plan.file.blocks[0]["weeks"][0]["days"][0]["slots"][0]["sets"] = 99
    with pytest.raises(DocumentError):
        json_import(plan=plan, practice=there, author=world.outsider, name="X")
    assert not Exercise.objects.filter(practice=there).exists()
    assert not Program.objects.filter(practice=there).exists()


def test_an_exercise_of_another_library_is_asked_for(world, library, program):
    text = (
        program_json(program)
        .replace("cable-triceps-pushdown", "rope-thing")
        .replace('"Cable pushdown"', '"Rope thing"')
    )
    data = load_json(text)
    file = read_program(data)
    [unknown] = json_plan(file, world.practice, {}).unknown
    assert unknown.key == "rope-thing"
    plan = json_plan(file, world.practice, {"rope-thing": Exercise.objects.filter(practice=None).first().name})
    assert plan.is_right


def test_an_exercise_that_is_not_in_the_list_is_refused(world, program):
    data = json.loads(program_json(program))
    walk_slots(data["blocks"], lambda one: one.update(exercise="nobody"))
    assert "not in the list: nobody" in json_plan(read_program(data), world.practice, {}).problem


def test_the_export_asks_as_often_for_a_long_program(world, library, program, own, django_assert_num_queries):
    # exercises with equipment, actions, limits, credits with heads
    with django_assert_num_queries(4):
        program_json(program)
    ids = list(Exercise.objects.filter(practice=None).values_list("pk", flat=True)[:28])
    content = document([slot(f"s{n}", pk) for n, pk in enumerate([*ids, own.pk])], weeks=6)
    long = program_create(practice=world.practice, author=world.coach, name="Long", document=content)
    assert len(exercise_ids(long.document)) == 29
    with django_assert_num_queries(4):
        program_json(long)


def test_practices_do_not_share_own_exercises(world, program):
    """A file of another practice finds nothing here by its own reference."""
    there = Practice.objects.create(name="Third")
    plan = json_plan(read_program(load_json(program_json(program))), there, {})
    assert plan.added == ["own/yard-press-down"]
