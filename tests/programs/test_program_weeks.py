"""The weeks of a block side by side, and the form of its ramp."""

import pytest
from django.urls import reverse

from tests.programs.factories import make_library, make_program

RAMP = {
    "do": "ramp;block=b1",
    "base_version": 1,
    "page": "weeks",
    "block": "b1",
    "weeks": "4",
    "deload": "yes",
    "every.rir": "3-1",
    "group.biceps.sets": "9",
}


@pytest.fixture
def library(db):
    return make_library()


@pytest.fixture
def program(world, library, client):
    client.force_login(world.coach)
    return make_program(world, library)


def page(client, program, **query):
    return client.get(reverse("program-weeks", args=[program.pk]), query)


def change(client, program, **fields):
    return client.post(reverse("program-change", args=[program.pk]), {**RAMP, **fields})


def document(program):
    program.refresh_from_db()
    return program.document


def test_the_form_begins_with_the_first_week_counted_by_muscle_group(client, program):
    form = page(client, program).context["form"]
    assert [(row.name, row.written, row.count) for row in form.groups] == [
        ("biceps", 3, 1),
        ("triceps", 3, 1),
        ("lats", 4, 1),
    ]
    assert form.every.rir.value == "3–1"


def test_a_ramp_set_on_the_page_makes_the_weeks_in_one_undoable_step(client, program):
    reply = change(client, program)
    assert reply.status_code == 302
    assert reply.url == f"/programs/{program.pk}/weeks/?block=b1#weeks"
    block = document(program)["blocks"][0]
    assert [week["days"][0]["slots"][0]["sets"] for week in block["weeks"]] == [3, 6, 9, 2]
    assert [week["deload"] for week in block["weeks"]] == [False, False, False, True]
    assert program.version == 2
    assert program.revisions.first().summary == "Set the ramp of Block 1"
    change(client, program, do="undo", base_version=2)
    assert "ramp" not in document(program)["blocks"][0]


def test_the_page_shows_each_slot_volume_and_minutes_week_by_week(client, program):
    change(client, program)
    table = page(client, program).context["table"]
    (first, _second) = table.days
    curl = next(iter(first.rows.values()))
    assert [(cell.slot.sets[1], cell.slot.rir) for cell in curl.cells] == [
        (3, (3, 4)), (6, (2, 3)), (9, (1, 2)), (2, (5, 6)),
    ]  # fmt: skip
    assert len(first.minutes) == 4
    assert first.minutes == [*sorted(first.minutes[:3]), min(first.minutes)]
    biceps = next(row for row in table.volumes if row.name == "biceps")
    # Rows give half a set each; a deload is counted in full and judged by nothing.
    assert [(cell.sets, cell.standing) for cell in biceps.cells] == [
        (5, "under"), (8, "under"), (11, "inside"), (3, ""),
    ]  # fmt: skip
    found = next(one for one in table.outside if one.row == biceps)
    assert found.under[0] == (1, biceps.cells[0])
    assert not found.over


def test_a_change_by_hand_is_marked_and_given_back_on_the_page(client, program):
    change(client, program)
    slot = document(program)["blocks"][0]["weeks"][1]["days"][0]["slots"][0]["key"]
    change(client, program, do=f"prescribe;slot={slot};text=10 x 5", base_version=2)
    text = page(client, program).content.decode()
    assert "10 × 5" in text
    assert text.count("by hand</span>") == 1
    assert f"release;key={slot}" in text
    change(client, program, do=f"release;key={slot}", base_version=3)
    assert "by hand</span>" not in page(client, program).content.decode()


def test_a_base_week_written_in_the_editor_flows_into_the_weeks(client, program):
    change(client, program)
    base = document(program)["blocks"][0]["ramp"]["base"]
    slot = base["days"][1]["slots"][0]["key"]
    editor = client.get(reverse("program-editor", args=[program.pk]), {"week": base["key"]})
    assert "goes into every week" in editor.content.decode()
    change(client, program, do=f"prescribe;slot={slot};text=5 x 20", base_version=2, page="")
    assert [w["days"][1]["slots"][0]["reps"] for w in document(program)["blocks"][0]["weeks"]] == [[20, 20]] * 4


@pytest.mark.parametrize(
    ("fields", "name", "said"),
    [
        ({"weeks": "0"}, "weeks", "2 to 26"),
        ({"group.biceps.sets": "9-4"}, "group.biceps.sets", "may not end lower"),
        ({"every.rir": "low"}, "every.rir", "such as 3–1"),
    ],
)
def test_what_cannot_be_is_said_beside_its_field_and_nothing_is_saved(client, program, fields, name, said):
    reply = change(client, program, **fields)
    text = reply.content.decode()
    assert reply.status_code == 422
    assert said in text
    assert f'aria-describedby="e-{name}"' in text
    assert f'value="{fields[name]}"' in text
    assert 'value="3-1"' in text or "every.rir" in fields
    assert "ramp" not in document(program)["blocks"][0]
    assert program.version == 1


def test_a_colleague_sees_the_weeks_without_a_way_to_change_them(client, world, program):
    change(client, program)
    client.force_login(world.colleague)
    text = page(client, program).content.decode()
    assert "Week 4" in text
    assert 'name="do"' not in text


@pytest.mark.parametrize("blocks", [[], [{"key": "b1", "name": "Empty", "weeks": []}]])
def test_a_program_without_a_block_or_a_week_has_a_page_too(client, program, blocks):
    program.document = {"blocks": blocks}
    program.save()
    reply = page(client, program)
    assert reply.status_code == 200
    assert "No training day in this block yet." in reply.content.decode()


def test_few_and_many_weeks_cost_the_same_queries(client, program, django_assert_num_queries):
    for weeks in ("2", "26"):
        program.refresh_from_db()
        change(client, program, weeks=weeks, base_version=program.version)
        # session, user, membership, program, may it be written, what is tried; exercises, credits; groups, heads
        with django_assert_num_queries(10):
            page(client, program)
