"""Properties of the check-in against its own baseline."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from periodization.readiness import ITEMS, BaselineSettings, CheckIn, readiness

TODAY = date(2026, 3, 2)
answers = st.tuples(*[st.integers(1, 5).map(float)] * 5)
days_ago = st.integers(1, 60)
history = st.lists(st.tuples(days_ago, answers), max_size=30).map(
    lambda rows: [CheckIn(TODAY - timedelta(ago), *items) for ago, items in rows]
)


@given(answers, history)
def test_same_answers_same_result(items, past):
    today = CheckIn(TODAY, *items)
    assert readiness(today, past) == readiness(today, past[::-1])


@given(answers, history, st.lists(st.tuples(st.integers(-20, 0) | st.integers(61, 400), answers), max_size=10))
def test_data_outside_the_window_change_nothing(items, past, rows):
    outside = [CheckIn(TODAY - timedelta(ago), *other) for ago, other in rows]
    today = CheckIn(TODAY, *items)
    assert readiness(today, past + outside) == readiness(today, past)


@given(answers, history.filter(lambda past: len(past) >= 7), st.sampled_from(ITEMS))
def test_a_worse_answer_is_never_a_better_state(items, past, item):
    better = dict(zip(ITEMS, items, strict=True))
    worse = {**better, item: 1.0}
    distances = [readiness(CheckIn(TODAY, **some), past).distance for some in (worse, better)]
    assert distances[0] <= distances[1]


@pytest.mark.parametrize("count", range(7))
def test_under_the_minimum_nothing_is_compared(count):
    past = [CheckIn(TODAY - timedelta(n + 1), 5, 5, 5, 5, 5) for n in range(count)]
    found = readiness(CheckIn(TODAY, 1, 1, 1, 1, 1), past)
    assert (found.state, found.distance, found.median) == ("no_baseline", None, None)
    assert found.reason.params == {"count": count, "minimum": 7}


def test_low_answers_are_usual_for_who_always_answers_low():
    past = [CheckIn(TODAY - timedelta(n + 1), 2, 2, 2, 2, 2) for n in range(20)]
    assert readiness(CheckIn(TODAY, 2, 2, 2, 2, 2), past).state == "usual"


def test_items_show_which_answer_moved():
    past = [CheckIn(TODAY - timedelta(n + 1), 4, 4, 4, 4, 4) for n in range(10)]
    found = readiness(CheckIn(TODAY, 4, 1, 4, 4, 4), past)
    assert found.state == "below"
    assert dict(found.items) == {"fatigue": 0, "sleep": -3, "soreness": 0, "stress": 0, "mood": 0}


@pytest.mark.parametrize("value", [0, 6, float("nan")])
@pytest.mark.parametrize("item", ITEMS)
def test_answers_off_the_scale_are_refused(item, value):
    with pytest.raises(ValueError, match=item):
        CheckIn(TODAY, **{**dict.fromkeys(ITEMS, 3.0), item: value})


@pytest.mark.parametrize(("ago", "counted"), [(0, False), (1, True), (60, True), (61, False)])
def test_window_has_both_its_ends(ago, counted):
    found = readiness(CheckIn(TODAY, 3, 3, 3, 3, 3), [CheckIn(TODAY - timedelta(ago), 3, 3, 3, 3, 3)])
    assert found.baseline_count == counted


LOOSE = BaselineSettings(cut=3, prior_spread=1, prior_count=10_000_000)


@pytest.mark.parametrize(("total", "state"), [(17, "below"), (18, "usual"), (22, "usual"), (23, "above")])
def test_cut_belongs_to_the_unusual(total, state):
    past = [CheckIn(TODAY - timedelta(n + 1), 4, 4, 4, 4, 4) for n in range(10)]
    items = (4, 4, 4, 4, total - 16) if total <= 20 else (5, 5, 5, 4, total - 19)
    assert readiness(CheckIn(TODAY, *items), past, LOOSE).state == state
