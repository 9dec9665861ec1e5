"""The published branches, and what may never come out of them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from periodization.screening import ACTIVE, CLINICIAN_FIRST, KNOWN, QUESTIONS, SIGNS, TOLD, screen

NO = dict.fromkeys(QUESTIONS, False)


@pytest.mark.parametrize(
    ("yes", "outcome"),
    [
        # Inactive: nothing; a known disease; a sign. Then the same for someone active.
        ((), "start-easy"),
        (("known-heart",), "known"),
        (("sign-dizzy",), "sign"),
        ((ACTIVE,), "go-on"),
        ((ACTIVE, "known-kidney"), "known"),
        ((ACTIVE, "sign-chest"), "sign"),
        # A sign comes before everything else.
        (("known-metabolic", "sign-calf", TOLD), "sign"),
        ((ACTIVE, TOLD), "told"),
    ],
)
def test_branches(yes, outcome):
    assert screen(NO | dict.fromkeys(yes, True)).outcome == outcome


@given(st.fixed_dictionaries({name: st.booleans() for name in QUESTIONS}))
def test_a_sign_a_known_disease_or_a_condition_always_asks_for_a_clinician(answers):
    result = screen(answers)
    assert result.clinician_first == any(answers[name] for name in (*SIGNS, *KNOWN, TOLD))
    assert result.clinician_first == (result.outcome in CLINICIAN_FIRST)
    assert all(answers[name] for name in result.because)
    assert bool(result.because) == result.clinician_first


def test_a_question_left_out_is_not_a_no():
    with pytest.raises(ValueError, match="sign-chest"):
        screen({name: False for name in QUESTIONS if name != "sign-chest"})
