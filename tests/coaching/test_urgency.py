"""The order of the board: what the points of a week amount to."""

import datetime as dt

from coaching.recompute.urgency import PROMPT_POINTS, urgency
from periodization.flags import Flag

DAY = dt.date(2026, 3, 2)
NOTHING = {"groups": {}, "deload": False}
KEPT = {"mean_rir_gap": None}


def flag(severity, subject=""):
    return Flag(
        rule_id="flag.test",
        version=1,
        family="performance",
        severity=severity,
        subject_kind="exercise",
        subject=subject,
        opened_on=DAY,
        code="drop",
        evidence_ids=(),
        clears_code="drop_clears",
    )


def points(flags, questions=(), plan_ahead=True, trained_lately=True):
    return urgency(flags, questions, NOTHING, KEPT, plan_ahead, trained_lately)[0]


def test_a_stop_comes_before_whoever_gathers_signs_and_questions():
    stopped = points([flag("stop")])
    gathered = points([flag("act", str(n)) for n in range(20)], tuple(PROMPT_POINTS), plan_ahead=False)
    assert stopped > gathered


def test_a_question_weighs_more_than_a_sign_of_its_weight_to_watch():
    assert all(points([], (kind,)) > points([flag("watch")]) for kind in PROMPT_POINTS)


def test_no_sign_and_no_question_is_no_urgency():
    assert urgency([], (), NOTHING, KEPT, True, True) == (0, [])
