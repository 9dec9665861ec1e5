"""The optimum of small requests is the best of all weeks, and a clash is a smallest one, found by trying every week."""

import random
from functools import cache

import pytest

from periodization.draft import Clash, Draft, draft_week
from periodization.draft.breaches import breaches
from periodization.draft.demands import demands_of
from periodization.draft.facts import gather
from periodization.draft.score import score
from tests.periodization.drafting import demanding_request, every_week, random_request

# exercises, days, sets: few enough that every week can be tried.
SHAPES = [(3, 2, (1, 2)), (4, 1, (1, 4)), (2, 3, (2, 3)), (5, 1, (2, 4)), (4, 2, (2, 2))]


def small(seed):
    rng = random.Random(seed)
    exercises, days, sets = SHAPES[seed % len(SHAPES)]
    return random_request(rng, exercises=exercises, days=days, groups=rng.randint(1, 3), sets=sets)


def demanding(seed):
    rng = random.Random(seed)
    return demanding_request(rng, exercises=rng.choice((2, 3)), days=1, groups=2, sets=(1, 3))


@cache
def drafted(make, seed):
    return draft_week(make(seed))


@pytest.mark.parametrize("seed", range(50))
def test_optimum_is_the_best_of_all_weeks(seed):
    request = small(seed)
    facts = gather(request)
    worths = [score(facts, week) for week in every_week(request, request.sets[1]) if not breaches(facts, week)]
    draft = drafted(small, seed)
    assert isinstance(draft, Draft)
    assert draft.ended == "within_gap"
    assert draft.points == pytest.approx(max(worths), abs=1e-6)
    assert draft.bound == pytest.approx(max(worths), abs=1e-5)


def test_the_small_requests_are_not_trivial():
    """Otherwise the test above could pass with empty weeks."""
    filled = 0
    for seed in range(50):
        filled += sum(len(day.slots) for day in drafted(small, seed).days) > 1
    assert filled > 25


DEMANDING = range(100, 145)


@pytest.mark.parametrize("seed", DEMANDING)
def test_demands_are_met_or_a_smallest_clash_is_named(seed):
    request = demanding(seed)
    facts = gather(request)
    broken = [(frozenset(breaches(facts, week)), week) for week in every_week(request)]
    possible = [score(facts, week) for failed, week in broken if not failed]
    result = drafted(demanding, seed)
    if possible:
        assert isinstance(result, Draft)
        assert result.points == pytest.approx(max(possible), abs=1e-6)
        return
    assert isinstance(result, Clash)
    assert result.proven
    members = set(result.demands)
    failures = {failed for failed, _ in broken}
    assert all(failed & members for failed in failures), "some week meets the whole clash"
    for one in members:
        assert any(not failed & (members - {one}) for failed in failures), f"{one} is not needed"
    everything = set(demands_of(request))
    helping = {one for one in everything if any(not failed & (everything - {one}) for failed in failures)}
    assert {relaxation.demand for relaxation in result.relaxations} == helping


def test_both_kinds_of_answer_occur():
    kinds = [type(drafted(demanding, seed)) for seed in DEMANDING]
    assert kinds.count(Clash) >= 15
    assert kinds.count(Draft) >= 10
