"""An exercise that a decision gave is fitted again like one that is written, and exchanged where it stands."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from programs.document.adapt import adapt, slots_in
from programs.fit.again import fit_again, fit_some_days
from programs.fit.model import Choice
from programs.fit.standing import Copy, Standing, days_only, with_exercises
from tests.programs.fit_library import ids
from tests.programs.test_fit import ARMS, POOL, client, clients, closed, plan, programs

BENCH, CURL, FLOOR = (ids()[slug] for slug in ("barbell-bench-press", "barbell-curl", "dumbbell-flat-press"))
DAYS = frozenset({"w1d1", "w1d2", "w2d1", "w2d2"})
WHERE = {slot.key for slot in slots_in(ARMS) if slot.exercise == BENCH}
GIVEN = dict.fromkeys(WHERE, FLOOR)


def again(facts, standing=(), decided=GIVEN, document=ARMS, days=DAYS, some=False, **choices):
    said = {name.replace("__", ":"): one for name, one in choices.items()}
    make = fit_some_days if some else fit_again
    return make(Copy(document, days, standing, "intermediate", decided), facts, POOL, choices=said)


def recorded(result):
    return [Standing(100 + n, one.change, one.params, one.edited) for n, one in enumerate(result.proposals)]


def test_a_decided_exercise_that_is_closed_is_proposed_to_be_exchanged_where_it_stands():
    result = again(client(limits=closed(exercises=[FLOOR])))
    [one] = [one for one in result.proposals if one.exercise == FLOOR]
    assert (one.id, one.required, one.reason) == (f"decided:{FLOOR}", True, "fit_limit")
    assert (one.change.exercise, one.change.slots) == (FLOOR, WHERE)
    assert one.change.to not in (FLOOR, 0, None)


def test_one_that_is_open_is_left_alone():
    assert again(client()).proposals == ()
    assert again(client(), some=True).proposals == ()


def test_the_coach_chooses_otherwise_or_leaves_it_out():
    facts = client(limits=closed(exercises=[FLOOR]))
    other = again(facts).proposals[0].options[1].exercise
    chosen = again(facts, **{f"decided__{FLOOR}": Choice(to=other)}).proposals[0]
    out = again(facts, **{f"decided__{FLOOR}": Choice(to=0)}).proposals[0]
    assert (chosen.change.to, chosen.edited) == (other, True)
    assert (out.change.kind, out.change.slots) == ("leave-out", WHERE)


def test_what_took_its_place_stays_while_the_reason_holds_and_goes_with_it():
    facts = client(limits=closed(exercises=[FLOOR]))
    standing = recorded(again(facts))
    # Written by then: the rows say what the differences say.
    later = again(facts, standing, decided={})
    assert (later.proposals, later.gone) == ((), ())
    assert again(client(), standing, decided={}).gone == tuple(one.pk for one in standing)


def test_a_substitute_that_is_closed_too_is_replaced():
    standing = recorded(again(client(limits=closed(exercises=[FLOOR]))))
    second = next(one.change.to for one in standing if one.change.exercise == FLOOR)
    result = again(client(limits=closed(exercises=[FLOOR, second])), standing, decided={})
    [one] = [one for one in result.proposals if one.exercise == FLOOR]
    assert one.change.to not in (FLOOR, second)
    assert result.replaces[one.id] == (standing[0].pk,)


def test_where_the_program_writes_the_same_exercise_both_are_exchanged():
    document = plan(("barbell-bench-press",), ("dumbbell-flat-press",))
    where = {slot.key for slot in slots_in(document) if slot.exercise == BENCH}
    result = again(client(limits=closed(exercises=[FLOOR])), decided=dict.fromkeys(where, FLOOR), document=document)
    swaps = {one.id: one.change.slots for one in result.proposals if one.change.kind == "swap"}
    assert swaps == {f"swap:{FLOOR}": frozenset(), f"decided:{FLOOR}": where}


def test_for_some_days_it_is_exchanged_on_those_alone():
    result = again(client(limits=closed(exercises=[FLOOR])), days={"w2d1", "w2d2"}, some=True)
    [one] = [one for one in result.proposals if one.exercise == FLOOR]
    assert one.change.slots == {key for key in WHERE if key.startswith("w2")}


@pytest.mark.parametrize("done", [{}, {FLOOR: 3}])
def test_a_decided_exercise_that_stays_asks_for_no_first_session_and_no_starting_load(done):
    facts = replace(client(e1rm={FLOOR: (60.0, 7)}), done={**client().done, **done})
    assert [one for one in again(facts).proposals if FLOOR in (one.exercise, *one.params.get("exercises", ()))] == []


@settings(max_examples=40, deadline=None)
@given(programs, clients, st.data())
def test_nobody_keeps_what_is_closed_to_them_and_asking_twice_asks_nothing(days, now, data):
    document = plan(*days)
    keys = frozenset(day.key for week in document.blocks[0].weeks for day in week.days)
    slots = slots_in(document)
    some = data.draw(st.sets(st.sampled_from([slot.key for slot in slots]), min_size=1))
    # A decision gives what is counted alike and is in the library.
    decided = {key: data.draw(st.sampled_from(sorted(POOL.exercises))) for key in some}
    copy = Copy(document, keys, (), "intermediate", decided)
    result = fit_again(copy, now, POOL)
    changes = result.changes((), result.gone)
    named = {key for one in changes if one.kind in ("swap", "leave-out") for key in one.slots}
    after = with_exercises(adapt(document, changes), {key: pk for key, pk in decided.items() if key not in named})
    for slot in slots_in(days_only(after, keys)):
        assert POOL.exercises[slot.exercise].closed_by(now.limits) == ()
    kept = [Standing(100 + n, one.change, one.params) for n, one in enumerate(result.proposals) if one.accepted]
    left = {key: pk for key, pk in decided.items() if key not in named}
    more = fit_again(replace(copy, standing=kept, decided=left), now, POOL)
    assert [one.id for one in more.proposals if one.required] == []
    assert more.must_go == frozenset()
