"""Saving a program: versions, words, conflicts."""

import pytest

from programs.document import DocumentError, EditError
from programs.document.edits import Operation
from programs.models import Program
from programs.services.program_write import StaleVersion, program_archive, program_copy, program_create, program_edit
from tests.programs.factories import make_exercise, make_library, make_program


@pytest.fixture
def library(db):
    return make_library()


@pytest.fixture
def program(world, library):
    return make_program(world, library)


def edit(program, user, base, name, /, **params):
    return program_edit(program=program, user=user, base_version=base, operation=Operation(name, params))


def slots(program, day=0):
    program.refresh_from_db()
    return program.document["blocks"][0]["weeks"][0]["days"][day]["slots"]


def test_each_change_is_a_version_with_its_words(world, library, program):
    revision = edit(program, world.coach, 1, "add-slot", day="w1d1", exercise=library.hammer.pk)
    assert (revision.version, revision.summary) == (2, "Added Hammer grip curl to Day 1, week 1 of Block 1")
    second = edit(program, world.coach, 2, "prescribe", slot="w1s1", text="4 x 6 @ 1 RIR")
    assert second.summary == "Wand curl (Day 1), week 1 of Block 1: 3 × 8–12 @ 1–2 RIR became 4 × 6 @ 1 RIR"
    assert [r.version for r in program.revisions.all()] == [3, 2, 1]
    assert slots(program)[2]["exercise"] == library.hammer.pk


def test_a_new_slot_takes_the_usual_rest_of_its_exercise(world, library, program):
    library.hammer.rest_s = 75
    library.hammer.save()
    edit(program, world.coach, 1, "add-slot", day="w1d1", exercise=library.hammer.pk)
    assert slots(program)[-1]["rest_s"] == 75


def test_a_range_of_sets_is_kept_as_a_range(world, program):
    edit(program, world.coach, 1, "prescribe", slot="w1s1", text="8-12 reps at 1-2 RIR for 3-4 sets")
    assert slots(program)[0]["sets"] == [3, 4]


def test_a_second_window_cannot_overwrite_and_learns_what_was_done(world, library, program):
    edit(program, world.owner, 1, "remove", key="w1s1")
    with pytest.raises(StaleVersion) as stale:
        edit(program, world.coach, 1, "prescribe", slot="w1s2", text="5 x 5")
    assert [(r.author, r.summary) for r in stale.value.since] == [
        (world.owner, "Removed Wand curl (Day 1), week 1 of Block 1")
    ]
    assert [one["sets"] for one in slots(program)] == [3]
    assert program.version == 2


def test_the_refused_change_can_be_made_on_the_newer_version(world, program):
    edit(program, world.owner, 1, "remove", key="w1s1")
    edit(program, world.coach, 2, "prescribe", slot="w1s2", text="5 x 5")
    assert [one["sets"] for one in slots(program)] == [5]


def test_a_change_that_changes_nothing_makes_no_version(world, program):
    edit(program, world.coach, 1, "prescribe", slot="w1s1", text="3 x 8-12 @ 1-2 RIR")
    program.refresh_from_db()
    assert (program.version, program.revisions.count()) == (1, 1)


def test_a_refused_change_saves_nothing(world, program):
    with pytest.raises(EditError):
        edit(program, world.coach, 1, "prescribe", slot="w1s1", text="lots")
    program.refresh_from_db()
    assert (program.version, program.revisions.count()) == (1, 1)


def test_an_exercise_of_another_practice_or_an_archived_one_cannot_be_added(world, library, program):
    theirs = make_exercise("Their curl", {library.bi: 1}, practice=world.outsider_membership.practice)
    old = make_exercise("Old curl", {library.bi: 1}, archived_at="2026-01-01T00:00Z")
    for exercise in (theirs, old):
        for name, params in (("add-slot", {"day": "w1d1"}), ("swap", {"slot": "w1s1"})):
            with pytest.raises(EditError) as refused:
                edit(program, world.coach, 1, name, exercise=exercise.pk, **params)
            assert refused.value.field == "exercise"


def test_a_document_that_is_not_a_program_is_not_saved(world):
    with pytest.raises(DocumentError):
        program_create(practice=world.practice, author=world.coach, name="Broken", document={"blocks": 3})
    assert not Program.objects.exists()


def test_a_new_program_has_somewhere_to_write(world):
    made = program_create(practice=world.practice, author=world.coach, name="New", days=3)
    assert [day["name"] for day in made.document["blocks"][0]["weeks"][0]["days"]] == ["Day 1", "Day 2", "Day 3"]
    assert made.version == 1


def test_a_copy_is_the_writers_own_and_does_not_touch_the_first(world, program):
    copy = program_copy(program=program, author=world.colleague)
    assert (copy.author, copy.name, copy.document) == (world.colleague, "Arms (copy)", program.document)
    edit(copy, world.colleague, 1, "remove", key="w1s1")
    assert len(slots(program)) == 2


def test_archiving_and_taking_out_again(program):
    assert program_archive(program=program, archived=True).archived_at
    assert program_archive(program=program, archived=False).archived_at is None
