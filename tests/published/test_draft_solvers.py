"""Drafts against a second solver that was given the problem in other words."""

import random

import pytest

from periodization.draft import Draft, Stop, draft_week
from periodization.draft.breaches import breaches
from periodization.draft.facts import gather
from periodization.draft.score import score
from tests.periodization.drafting import random_request
from tests.published.draft_by_cp_sat import draft_by_cp_sat

GAP = 0.005
# The rules below hold whenever either is stopped; twenty requests at this clock keep the suite quick. bench/draft.py
# does the same with the whole library.
SECONDS = 4
ROUNDING = 1e-3


@pytest.mark.parametrize("seed", range(20))
def test_both_solvers_agree_within_the_gap(seed):
    rng = random.Random(1000 + seed)
    request = random_request(
        rng,
        exercises=rng.randint(20, 28),
        days=rng.randint(2, 3),
        groups=rng.randint(4, 6),
        sets=(2, 4),
        slots_per_day=6,
        session_cap=8.0,
        spacing_must=rng.random() < 0.2,
        stop=Stop(gap=GAP, seconds=SECONDS),
    )
    facts = gather(request)
    draft = draft_week(request)
    other = draft_by_cp_sat(request, GAP, SECONDS)
    assert isinstance(draft, Draft)
    # What the other solver found is a week by our count too, worth what it says.
    assert other.points == pytest.approx(score(facts, other.sets), abs=ROUNDING)
    assert not breaches(facts, other.sets)
    # Neither found more than the other proved possible.
    assert draft.points <= other.bound + ROUNDING
    assert other.points <= draft.bound + ROUNDING
    if draft.ended == "within_gap" and other.bound - other.points <= GAP * other.points:
        assert abs(draft.points - other.points) <= GAP * max(draft.points, other.points)
        assert abs(draft.bound - other.bound) <= 2 * GAP * max(draft.points, other.points)
