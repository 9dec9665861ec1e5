"""Ladders from stored JSON: what is accepted, and that everything else is refused in words."""

import json

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
    ladder_from_dict,
    settings_of,
)

FIXED = {"kind": "fixed", "min": 1, "max": 50, "step": 1}


@pytest.mark.parametrize(
    ("data", "ladder"),
    [
        (FIXED, FixedSteps(1, 50, 1)),
        ({"kind": "listed", "values": [8, 4, 4]}, Listed((4, 8))),
        ({"kind": "plates", "bar": 20, "pairs": [[20, 2], [25, 4]]}, PlatePairs(20, ((25, 4), (20, 2)))),
        ({"kind": "plates", "bar": 20, "pairs": [[20, 1], [20, 2]]}, PlatePairs(20, ((20, 3),))),
        ({"kind": "stack", "pins": [5, 10], "add_ons": [2.5]}, Stack((5, 10), (2.5,))),
        ({"kind": "stack", "min": 5, "max": 15, "step": 5}, Stack((5, 10, 15))),
        ({"kind": "none"}, NoLoad()),
        ({"kind": "assisted", "inner": FIXED}, Assisted(FixedSteps(1, 50, 1))),
        ({"kind": "body_weight_plus", "inner": {"kind": "none"}}, BodyWeightPlus(NoLoad())),
    ],
)
def test_described_ladder(data, ladder):
    assert ladder_from_dict(json.loads(json.dumps(data))) == ladder


def test_pounds_are_converted():
    assert settings_of(ladder_from_dict({"kind": "listed", "values": [100], "unit": "lb"})) == (45.359237,)


@pytest.mark.parametrize(
    ("data", "words"),
    [
        ({}, "Unknown kind"),
        ({"kind": "rubber"}, "Unknown kind"),
        ({"kind": ["fixed"]}, "Unknown kind"),
        ([], "described by"),
        ({**FIXED, "step": 0}, "step must be more than 0"),
        ({**FIXED, "step": -1}, "step must be more than 0"),
        ({**FIXED, "step": "1"}, "step must be a number"),
        ({**FIXED, "min": True}, "lightest load must be a number"),
        ({**FIXED, "max": float("nan")}, "heaviest load must be a number"),
        ({**FIXED, "max": 10**400}, "heavier than any equipment"),
        ({**FIXED, "max": float("inf")}, "heavier than any equipment"),
        ({**FIXED, "min": float("-inf")}, "0 or more"),
        ({**FIXED, "max": 0}, "lighter than the lightest"),
        ({**FIXED, "step": 1e-6}, "step is too small"),
        ({**FIXED, "unit": "stone"}, "unit must be kg or lb"),
        ({"kind": "listed", "values": []}, "at least one load"),
        ({"kind": "listed", "values": "12"}, "list of numbers"),
        ({"kind": "listed", "values": [-1]}, "0 or more"),
        ({"kind": "plates", "bar": 20, "pairs": [25]}, "weight and how many"),
        ({"kind": "plates", "bar": 20, "pairs": [[25, 0]]}, "1 to 20"),
        ({"kind": "plates", "bar": 20, "pairs": [[25, 1.5]]}, "1 to 20"),
        ({"kind": "plates", "bar": 20, "pairs": [[0, 1]]}, "more than 0"),
        ({"kind": "plates", "bar": 20}, "list of plate"),
        ({"kind": "plates", "pairs": []}, "bar must be a number"),
        ({"kind": "plates", "bar": 0, "pairs": [[1 + 0.001 * 3**i, 20] for i in range(6)]}, "different loads"),
        ({"kind": "stack", "pins": []}, "at least one pin"),
        ({"kind": "stack", "pins": [5], "add_ons": list(range(1, 9))}, "At most 6"),
        ({"kind": "assisted"}, "inner"),
        ({"kind": "assisted", "inner": {"kind": "assisted", "inner": FIXED}}, "inner"),
    ],
)
def test_nonsense_is_refused_in_words(data, words):
    with pytest.raises(ValueError, match=words):
        ladder_from_dict(data)


anything = st.recursive(
    st.none() | st.booleans() | st.integers(-5, 60) | st.floats() | st.text(max_size=3),
    lambda kids: st.lists(kids, max_size=3) | st.dictionaries(st.text(max_size=3), kids, max_size=3),
    max_leaves=6,
)
keys = st.sampled_from(["min", "max", "step", "values", "bar", "pairs", "pins", "add_ons", "inner", "unit"])
kinds = st.sampled_from(["fixed", "listed", "plates", "stack", "assisted", "body_weight_plus", "none"])


@given(kinds, st.dictionaries(keys, anything, max_size=5))
def test_anything_is_a_ladder_or_a_value_error(kind, data):
    try:
        ladder = ladder_from_dict({**data, "kind": kind})
    except ValueError:
        return
    assert len(settings_of(ladder)) >= 1
