"""Pounds and kilograms."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from periodization.units import from_kg, to_kg


@given(st.floats(0, 1000), st.sampled_from(["kg", "lb"]))
def test_there_and_back_again(load, unit):
    assert from_kg(to_kg(load, unit), unit) == pytest.approx(load, abs=1e-9)


@pytest.mark.parametrize("convert", [to_kg, from_kg])
@pytest.mark.parametrize("unit", ["", "KG", "stone", None])
def test_unknown_unit_is_refused_and_not_guessed(convert, unit):
    with pytest.raises(ValueError, match="Unknown unit"):
        convert(10, unit)
