"""The bench: the same figures for the same seeds, and arithmetic that can be checked by hand."""

from datetime import date

from bench.flags import seeds_of
from bench.flags_report import report, wilson
from bench.flags_run import _events, run_client

START = date(2026, 1, 5)


def test_seeds():
    assert seeds_of(["3", "10-12"]) == [3, 10, 11, 12]


def test_a_false_prompt_that_stands_on_counts_again_after_a_week():
    assert _events([1, 2, 3, 8, 9, 20], set()) == [1, 8, 20]
    assert _events([1, 2, 3, 8, 9, 20], {1, 2, 3}) == [8, 20]


def test_wilson_interval():
    """DERIVED: 85 of 100 gives 76.7 to 90.7."""
    assert wilson(85, 100).split("(")[0].strip() == "85.0 % [76.7, 90.7]"


def test_run_is_repeatable_and_finds_an_episode():
    first = run_client(6, START, 14, 0.05)
    assert first == run_client(6, START, 14, 0.05)
    assert len(first.episodes) == 1
    assert "check_in.below_own_baseline" in first.episodes[0].rules
    assert sum(first.targets.values()) > 100
    assert "(1 of 1)" in report([first], 14, curve=True)
