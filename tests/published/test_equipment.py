"""Loads that equipment can make, against the worked tables (DERIVED: arithmetic)."""

import pytest

from periodization.loads import at_or_above, at_or_below, ladder_from_dict, next_down, next_up, plates_for
from periodization.units import to_kg
from tests.published.tables import number, numbers, table

PLATES = ladder_from_dict(
    {"kind": "plates", "bar": 20, "pairs": [[25, 2], [20, 1], [10, 1], [5, 1], [2.5, 1], [1.25, 1]]}
)
FIVES = {"kind": "fixed", "min": 5, "max": 80, "step": 5}
LADDERS = {
    "dumbbells 1 to 50 by 1": {"kind": "fixed", "min": 1, "max": 50, "step": 1},
    "stack 5 to 100 by 5, add-on 2.5": {"kind": "stack", "min": 5, "max": 100, "step": 5, "add_ons": [2.5]},
    "assisted 5 to 80 by 5": {"kind": "assisted", "inner": FIVES},
    "body weight plus 2.5 to 20 by 2.5": {
        "kind": "body_weight_plus",
        "inner": {"kind": "fixed", "min": 2.5, "max": 20, "step": 2.5},
    },
    "pounds 5 to 100 by 5": {"kind": "fixed", "min": 5, "max": 100, "step": 5, "unit": "lb"},
}


def same(value, cell):
    expected = number(cell)
    return value is None if expected is None else value == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize("row", table("equipment-loads", "loads-1"), ids=lambda r: r["wanted kg"])
def test_plates(row):
    kg = float(row["wanted kg"])
    assert same(at_or_below(PLATES, kg), row["at or below"])
    assert same(at_or_above(PLATES, kg), row["at or above"])
    assert same(next_up(PLATES, kg), row["next up"])
    below = at_or_below(PLATES, kg)
    if below is None:
        assert row["plates on one side"] == "none"
        assert plates_for(PLATES, kg) is None
    else:
        assert list(plates_for(PLATES, below)) == numbers(row["plates on one side"])


@pytest.mark.parametrize("row", table("equipment-loads", "loads-2"), ids=lambda r: f"{r['ladder']}-{r['wanted kg']}")
def test_other_ladders(row):
    ladder, kg = ladder_from_dict(LADDERS[row["ladder"]]), float(row["wanted kg"])
    assert same(at_or_below(ladder, kg), row["at or below"])
    assert same(at_or_above(ladder, kg), row["at or above"])
    assert same(next_up(ladder, kg), row["next up"])
    assert same(next_down(ladder, kg), row["next down"])


def test_pound_is_exact():
    """MEMORY: the international pound, 0.45359237 kg by definition."""
    assert to_kg(100, "lb") == pytest.approx(45.359237, abs=1e-12)
