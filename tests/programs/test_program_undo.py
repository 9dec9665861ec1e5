"""Undo brings back exactly what was there, redo what was undone, and nothing is lost on the way."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.django import TestCase

from programs.document import EditError
from programs.document.edits import Operation
from programs.services.program_undo import program_redo, program_return, program_undo, steps
from programs.services.program_write import StaleVersion, program_edit
from tests.conftest import make_world
from tests.programs.factories import make_library, make_program


@pytest.fixture
def program(world):
    return make_program(world, make_library())


def prescribe(program, user, sets):
    operation = Operation("prescribe", {"slot": "w1s1", "sets": str(sets)})
    program_edit(program=program, user=user, base_version=program.version, operation=operation)
    program.refresh_from_db()


def step(function, program, user):
    revision = function(program=program, user=user, base_version=program.version)
    program.refresh_from_db()
    return revision


def sets(program):
    return program.document["blocks"][0]["weeks"][0]["days"][0]["slots"][0]["sets"]


def test_undo_goes_back_one_change_at_a_time_and_redo_comes_forward(world, program):
    for number in (4, 5, 6):
        prescribe(program, world.coach, number)
    seen = []
    for function in (
        program_undo,
        program_undo,
        program_undo,
        program_redo,
        program_redo,
        program_undo,
        program_redo,
        program_redo,
    ):
        step(function, program, world.coach)
        seen.append(sets(program))
    assert seen == [5, 4, 3, 4, 5, 4, 5, 6]
    assert steps(program).redo is None


def test_a_new_change_after_an_undo_ends_redo_but_not_undo(world, program):
    for number in (4, 5):
        prescribe(program, world.coach, number)
    step(program_undo, program, world.coach)
    prescribe(program, world.coach, 9)
    assert steps(program).redo is None
    for expected in (4, 3):
        step(program_undo, program, world.coach)
        assert sets(program) == expected


def test_there_is_an_end_in_both_directions(world, program):
    for function in (program_undo, program_redo):
        with pytest.raises(EditError):
            step(function, program, world.coach)


def test_undo_and_redo_say_what_they_did(world, program):
    prescribe(program, world.coach, 4)
    change = program.revisions.first().summary
    assert step(program_undo, program, world.coach).summary == f"Undid: {change}"
    assert step(program_redo, program, world.coach).summary == f"Redid: {change}"


def test_undo_from_a_stale_window_is_refused(world, program):
    prescribe(program, world.owner, 4)
    prescribe(program, world.owner, 5)
    with pytest.raises(StaleVersion):
        program_undo(program=program, user=world.coach, base_version=2)
    assert sets(program) == 5


def test_returning_to_an_earlier_version_is_a_change_that_can_be_undone(world, program):
    for number in (4, 5, 6):
        prescribe(program, world.coach, number)
    program_return(program=program, user=world.coach, base_version=4, version=2)
    program.refresh_from_db()
    assert sets(program) == 4
    step(program_undo, program, world.coach)
    assert sets(program) == 6
    with pytest.raises(EditError):
        program_return(program=program, user=world.coach, base_version=program.version, version=99)


class AnyOrder(TestCase):
    @settings(deadline=None, max_examples=25)
    @given(st.lists(st.sampled_from(["edit", "edit", "undo", "redo"]), max_size=14))
    def test_the_history_behaves_like_two_stacks_of_documents(self, actions):
        world = make_world()
        program = make_program(world, make_library())
        past, future, number = [], [], 0
        for action in actions:
            before = program.document
            if action == "edit":
                number += 1
                prescribe(program, world.coach, 3 + number)
                past.append(before)
                future.clear()
                continue
            source, other, function = (past, future, program_undo) if action == "undo" else (future, past, program_redo)
            if not source:
                with pytest.raises(EditError):
                    step(function, program, world.coach)
                continue
            step(function, program, world.coach)
            assert program.document == source.pop()
            other.append(before)
        found = steps(program)
        assert (found.undo is None, found.redo is None) == (not past, not future)
