"""Ladders: moving along them, for every kind."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from periodization.loads import (
    Assisted,
    BodyWeightPlus,
    FixedSteps,
    Listed,
    NoLoad,
    PlatePairs,
    Stack,
    at_or_above,
    at_or_below,
    effective_load,
    next_down,
    next_up,
    plates_for,
    setting_for,
    settings_of,
)

steps = st.sampled_from([0.5, 1.0, 1.25, 2.0, 2.5, 5.0])
fixed = st.builds(
    lambda low, n, step: FixedSteps(low, low + n * step, step), st.integers(0, 10), st.integers(0, 20), steps
)
listed = st.lists(st.integers(1, 400), min_size=1, max_size=12).map(lambda v: Listed(tuple(x / 4 for x in v)))
plates = st.builds(
    PlatePairs,
    st.sampled_from([0.0, 7.5, 20.0]),
    st.lists(
        st.tuples(st.sampled_from([0.5, 1.25, 2.5, 5.0, 10.0, 20.0, 25.0]), st.integers(1, 3)),
        max_size=5,
        unique_by=lambda pair: pair[0],
    ).map(tuple),
)
stacks = st.builds(Stack, st.just((5.0, 10.0, 15.0, 20.0)), st.sampled_from([(), (2.5,), (1.25, 2.5)]))
inner = fixed | listed | stacks
ladders = inner | plates | st.builds(NoLoad) | st.builds(BodyWeightPlus, inner) | st.builds(Assisted, inner)
wanted = st.floats(0, 200)


def hardness(ladder, kg):
    return -kg if isinstance(ladder, Assisted) else kg


@given(ladders, wanted)
def test_below_is_never_harder_and_above_never_easier(ladder, kg):
    below, above = at_or_below(ladder, kg), at_or_above(ladder, kg)
    assert below is None or hardness(ladder, below) <= hardness(ladder, kg) + 0.005
    assert above is None or hardness(ladder, above) >= hardness(ladder, kg) - 0.005
    assert below is not None or above is not None


@given(ladders, wanted)
def test_nothing_real_lies_between_below_and_above(ladder, kg):
    below, above = at_or_below(ladder, kg), at_or_above(ladder, kg)
    if below is not None and above is not None and below != above:
        everything = settings_of(ladder)
        assert everything.index(above) == everything.index(below) + 1


@given(ladders)
def test_stepping_up_visits_every_setting_once(ladder):
    everything = settings_of(ladder)
    visited = [everything[0]]
    while (upper := next_up(ladder, visited[-1])) is not None:
        visited.append(upper)
    assert visited == list(everything)
    assert [next_down(ladder, kg) for kg in visited] == [None, *visited[:-1]]


@given(ladders)
def test_a_real_setting_rounds_to_itself(ladder):
    assert all(at_or_below(ladder, kg) == kg == at_or_above(ladder, kg) for kg in settings_of(ladder))


@given(plates)
def test_plates_add_up_and_are_there(ladder):
    stock = dict(ladder.pairs)
    for kg in settings_of(ladder):
        side = plates_for(ladder, kg)
        assert ladder.bar + 2 * sum(side) == pytest.approx(kg, abs=1e-5)
        assert all(side.count(plate) <= stock[plate] for plate in side)
        assert list(side) == sorted(side, reverse=True)


def test_plates_are_as_few_as_possible():
    ladder = PlatePairs(20, ((5.0, 4), (10.0, 2), (20.0, 1), (15.0, 2)))
    assert plates_for(ladder, 20 + 2 * 30) == (20.0, 10.0)
    assert plates_for(ladder, 20 + 2 * 35) == (20.0, 15.0)


def test_only_a_bar_has_plates():
    assert plates_for(FixedSteps(1, 10, 1), 5) is None
    assert plates_for(PlatePairs(20, ((20.0, 1),)), 42) is None


def test_pounds_stored_as_rounded_kilograms_find_their_plate():
    ladder = Listed((20.41165665, 22.6796185))
    assert at_or_below(ladder, 20.41) == pytest.approx(20.41165665, abs=1e-6)
    assert next_up(ladder, 20.41) == pytest.approx(22.6796185, abs=1e-6)


def test_one_step_up_on_an_assisted_machine_is_less_help():
    ladder = Assisted(FixedSteps(5, 50, 5))
    assert next_up(ladder, 20) == 15
    assert next_down(ladder, 20) == 25
    assert next_up(ladder, 5) == 0
    assert next_up(ladder, 0) is None


def test_no_load_has_nowhere_to_go():
    assert (at_or_below(NoLoad(), 10), next_up(NoLoad(), 0), next_down(NoLoad(), 0)) == (0, None, None)


@pytest.mark.parametrize(
    ("ladder", "setting", "body", "expected"),
    [
        (FixedSteps(1, 50, 1), 20, None, 20),
        (BodyWeightPlus(Listed((5.0,))), 5, 80, 85),
        (BodyWeightPlus(Listed((5.0,))), 0, 80, 80),
        (BodyWeightPlus(Listed((5.0,))), 5, None, None),
        (Assisted(FixedSteps(5, 90, 5)), 30, 80, 50),
        (Assisted(FixedSteps(5, 90, 5)), 80, 80, None),
        (Assisted(FixedSteps(5, 90, 5)), 90, 80, None),
        (Assisted(FixedSteps(5, 90, 5)), 30, None, None),
    ],
)
def test_load_that_the_muscles_move(ladder, setting, body, expected):
    assert effective_load(ladder, setting, body) == expected


@given(st.floats(40, 150), st.floats(0.3, 1), st.integers(0, 6))
def test_setting_gives_back_the_load(body, share, n):
    added, helped = BodyWeightPlus(FixedSteps(0, 30, 5)), Assisted(FixedSteps(0, 30, 5))
    for ladder in (added, helped):
        load = effective_load(ladder, 5.0 * n, body, share)
        if load is not None:
            assert setting_for(ladder, load, body, share) == pytest.approx(5.0 * n, abs=1e-9)


def test_setting_never_asks_for_less_than_nothing():
    assert setting_for(Assisted(FixedSteps(5, 50, 5)), 100, 80) == 0
    assert setting_for(BodyWeightPlus(FixedSteps(5, 50, 5)), 60, 80) == 0
    assert setting_for(Assisted(FixedSteps(5, 50, 5)), 60, None) is None
    assert setting_for(FixedSteps(5, 50, 5), 33, None) == 33
