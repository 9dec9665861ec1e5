"""A sign that is too weak to be shown by itself is shown with the question that rests on it, and only then."""

import datetime as dt
from dataclasses import replace
from types import SimpleNamespace

import pytest

from coaching.recompute.compute import shown
from periodization.flags import Flag

STRONG = Flag(
    "check_in.below_own_baseline", 3, "check_in", "watch", "client", "", dt.date(2026, 3, 2), ("a",), "x", "y"
)
WEAK = replace(STRONG, rule_id="performance.overall_under_expected", family="performance", quiet=True)


@pytest.mark.parametrize(
    ("signs", "seen"),
    [(None, [STRONG]), ([], [STRONG]), (["soreness"], [STRONG]), (["performance", "check_in"], [STRONG, WEAK])],
    ids=["no question", "due by the calendar", "other signs", "rests on it"],
)
def test_weak_signs_stand_only_beside_the_question_that_rests_on_them(signs, seen):
    prompt = None if signs is None else SimpleNamespace(inputs={"signs": signs})
    assert list(shown((STRONG, WEAK), prompt)) == seen
