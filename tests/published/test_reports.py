"""Reports of pain and of effort against published cuts and errors."""

from datetime import date, timedelta

import pytest

from periodization.flags import DEFAULT, ClientHistory, PainFact, evaluate
from periodization.flags.expectation import UNDERPREDICTION
from periodization.strength import estimate_e1rm
from periodization.trend.noise import report_error

TODAY = date(2026, 3, 2)


def severity(*scores):
    pains = [PainFact(f"p{n}", TODAY - timedelta(len(scores) - n), s, "knee", "squat") for n, s in enumerate(scores)]
    found = evaluate(ClientHistory(pains=tuple(pains)), TODAY)
    return found[0].severity if found else None


@pytest.mark.parametrize("score", [6, 7, 8, 9, 10])
def test_over_five_is_a_stop(score):
    """MEMORY (Thomee 1997, Silbernagel 2007) and SOURCED-2nd (a clinic's page): both stop over 5."""
    assert severity(score) == "stop"


@pytest.mark.parametrize(("score", "expected"), [(5, "watch"), (4, "watch"), (3, "watch"), (2, None), (0, None)])
def test_three_to_five_is_watched_by_the_stricter_cut(score, expected):
    """The lower cut differs (2 or 3): 3 is never passed over. MEMORY and SOURCED-2nd."""
    assert severity(score) == expected


def test_pain_that_rises_is_a_stop_below_five():
    """MEMORY: no rise from time to time (Thomee 1997). Three reports: chosen."""
    assert severity(1, 2, 3) == "stop"
    assert DEFAULT.pain_rising_reports == 3


def test_repetitions_left_unnoticed():
    """SOURCED: people say 0.95 too few (95 % 0.17 to 1.73), Halperin 2022."""
    assert UNDERPREDICTION == 0.95


@pytest.mark.parametrize("rir", [1, 2, 3, 4, 5])
def test_report_is_about_one_off_near_failure(rir):
    """SOURCED: Hackett 2017, about 1 with 0-5 left."""
    assert report_error(rir) == pytest.approx(1, abs=0.01)


@pytest.mark.parametrize("rir", [7, 8, 9, 10])
def test_report_is_two_off_or_more_far_from_it(rir):
    """SOURCED: Hackett 2017, more than 2 with 7-10 left."""
    assert report_error(rir) >= 2


@pytest.mark.parametrize("rir", [5, 6, 8])
def test_an_estimate_from_far_off_is_trusted_less(rir):
    """SOURCED (direction): the error is over 2 repetitions there."""
    far, near = estimate_e1rm(100, 5, rir), estimate_e1rm(100, 5, 2)
    assert far.confidence < near.confidence
