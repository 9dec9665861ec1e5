"""A running copy fitted again: what is new is proposed, what stands is left, what lost its reason can go."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from programs.document.adapt import Change, adapt, slots_in
from programs.fit.again import fit_again, fit_some_days
from programs.fit.fit import fit
from programs.fit.model import Choice
from programs.fit.standing import Copy, Standing, days_only
from tests.programs.fit_library import ids
from tests.programs.test_fit import ARMS, POOL, client, clients, closed, has, plan, programs

BENCH, CURL = ids()["barbell-bench-press"], ids()["barbell-curl"]
ALL = frozenset({"w1d1", "w1d2", "w2d1", "w2d2"})
LATER = frozenset({"w2d1", "w2d2"})


def again(facts, standing=(), days=ALL, document=ARMS, some=False, decided=None, **choices):
    make = fit_some_days if some else fit_again
    said = {name.replace("__", ":"): one for name, one in choices.items()}
    copy = Copy(document, days, standing, "intermediate", decided or {})
    return make(copy, facts, POOL, choices=said)


def stands(*changes, **more):
    return [Standing(pk, change, **more) for pk, change in enumerate(changes, 1)]


def made(result, standing, back=(), document=ARMS):
    return adapt(document, result.changes(standing, back))


def from_fit(facts, document=ARMS):
    """What assigning with these facts records."""
    found = fit(document, facts, POOL, written_for="intermediate").proposals
    return [Standing(n, one.change, one.params) for n, one in enumerate(found, 1)]


def test_nothing_changed_asks_for_nothing():
    facts = client(equipment=has("dumbbell"), status="novice", minutes=35)
    result = again(facts, from_fit(facts))
    assert (result.proposals, result.gone) == ((), ())


def test_a_limit_that_came_later_is_met_and_cannot_be_declined():
    result = again(client(limits=closed("flat-on-back")))
    [swap] = [one for one in result.proposals if one.change.kind == "swap"]
    assert (swap.exercise, swap.required, swap.reason) == (BENCH, True, "fit_limit")
    assert BENCH not in {slot.exercise for slot in slots_in(made(result, []))}


def test_what_stands_and_still_holds_is_not_changed_for_something_a_little_better():
    second = again(client(equipment=has("dumbbell"))).proposals[0].options[1].exercise
    standing = stands(Change("swap", BENCH, second))
    assert all(one.exercise != BENCH for one in again(client(equipment=has("dumbbell")), standing).proposals)


def test_a_substitute_that_is_closed_now_is_replaced_by_another():
    facts = client(equipment=has("dumbbell"))
    standing = from_fit(facts)
    limited = replace(facts, limits=closed("flat-on-back"))
    result = again(limited, standing)
    swap = next(one for one in result.proposals if one.exercise == BENCH)
    assert result.replaces[swap.id] == tuple(row.pk for row in standing if row.change.exercise == BENCH)
    assert all(not POOL.exercises[s.exercise].closed_by(limited.limits) for s in slots_in(made(result, standing)))


def test_what_has_no_reason_any_more_can_be_taken_back_or_left():
    standing = from_fit(client(equipment=has("dumbbell", "cable", "leg-press", "body-weight")))
    result = again(client(), standing)
    assert (result.proposals, set(result.gone)) == ((), {one.pk for one in standing})
    assert made(result, standing, result.gone) == ARMS
    assert made(result, standing) != ARMS


def test_what_brings_something_closed_and_has_no_reason_must_go():
    floor = ids()["dumbbell-flat-press"]
    result = again(client(limits=closed(exercises=[floor])), stands(Change("swap", BENCH, floor)))
    assert result.must_go == {1}
    assert made(result, stands(Change("swap", BENCH, floor))) == ARMS


def test_left_out_comes_back_as_a_substitute_once_there_is_one_unless_the_coach_wanted_it_out():
    out = Change("leave-out", BENCH)
    facts = client(equipment=has("dumbbell"))
    assert any(one.exercise == BENCH for one in again(facts, stands(out)).proposals)
    assert not any(one.exercise == BENCH for one in again(facts, stands(out, edited=True)).proposals)


def test_less_time_and_another_status_reach_the_copy_and_more_time_takes_the_cut_back():
    short = again(client(minutes=15))
    assert {one.change.kind for one in short.proposals} >= {"fewer"}
    standing = [Standing(n, one.change) for n, one in enumerate(short.proposals, 1)]
    assert set(again(client(), standing).gone) == {one.pk for one in standing}
    novice = again(client(status="novice"))
    assert {one.change.kind for one in novice.proposals} == {"scale", "rir"}


def test_only_open_days_are_fitted():
    day = plan(("barbell-bench-press",), ("barbell-curl",), weeks=1)
    result = again(client(equipment=has("dumbbell")), days={"w1d2"}, document=day)
    assert {one.exercise for one in result.proposals if one.change.kind == "swap"} == {CURL}


def test_careful_sessions_are_asked_once_and_for_what_comes_in():
    facts = replace(client(limits=closed("flat-on-back")), done={})
    first = {slot.exercise: slot.key for slot in reversed(slots_in(days_only(ARMS, LATER)))}
    standing = stands(Change("careful", slots=frozenset(first.values()), rir=2))
    result = again(facts, standing, days=LATER)
    assert {one.change.kind for one in result.proposals} == {"swap"}
    fresh = again(facts, days=LATER)
    assert {"swap", "careful"} <= {one.change.kind for one in fresh.proposals}


def test_a_starting_load_is_given_to_what_comes_in_and_not_to_what_is_under_way():
    facts = client(equipment=has("dumbbell"), e1rm={ids()["dumbbell-flat-press"]: (60.0, 7), CURL: (40.0, 7)})
    starts = [one.exercise for one in again(facts).proposals if one.change.kind == "start"]
    assert starts == [ids()["dumbbell-flat-press"]]


def test_some_days_name_their_slots_and_leave_the_others():
    facts = client(equipment=has("dumbbell", "body-weight"))
    standing = stands(Change("swap", CURL, ids()["ez-bar-curl"]))
    result = again(facts, standing, days={"w2d1"}, some=True)
    after = made(result, standing)
    assert slots_in(days_only(after, ALL - {"w2d1"})) == slots_in(
        days_only(adapt(ARMS, [one.change for one in standing]), ALL - {"w2d1"})
    )
    assert {POOL.exercises[slot.exercise].equipment for slot in slots_in(days_only(after, {"w2d1"}))} <= facts.equipment
    assert result.gone == ()


def test_a_coach_chooses_otherwise_here_too():
    facts = client(equipment=has("dumbbell"))
    other = again(facts).proposals[0].options[1].exercise
    result = again(facts, **{f"swap__{BENCH}": Choice(to=other), f"swap__{CURL}": Choice(accept=False)})
    given = {slot.exercise for slot in slots_in(made(result, []))}
    assert other in given
    assert CURL in given


@settings(max_examples=40, deadline=None)
@given(programs, clients, clients, st.data())
def test_fitted_to_other_facts_nobody_gets_what_is_closed_to_them_and_asking_twice_asks_nothing(
    days, before, now, data
):
    document = plan(*days)
    keys = [day.key for week in document.blocks[0].weeks for day in week.days]
    open_days = data.draw(st.sets(st.sampled_from(keys), min_size=1))
    standing = from_fit(before, document)
    result = again(now, standing, days=open_days, document=document)
    changes = result.changes(standing, result.gone)
    for slot in slots_in(days_only(adapt(document, changes), open_days)):
        assert POOL.exercises[slot.exercise].closed_by(now.limits) == ()
    off = result.off(result.gone)
    kept = [one for one in standing if one.pk not in off]
    new = [Standing(100 + n, one.change, one.params) for n, one in enumerate(result.proposals) if one.accepted]
    more = again(now, kept + new, days=open_days, document=document)
    assert [one.id for one in more.proposals if one.required] == []
    assert more.must_go == frozenset()
