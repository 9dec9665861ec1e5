"""A starting load in the fitting's form is one that the equipment makes, to the last decimal."""

from types import SimpleNamespace

import pytest

from coaching.fitting.forms import ChoiceForm

START = SimpleNamespace(number=31.25, bounds=(0.5, 101.25), change=SimpleNamespace(kind="start"))


@pytest.mark.parametrize(("unit", "shown", "most"), [("kg", "31.25", 101.25), ("lb", "68.9", 223.2)])
def test_it_is_shown_as_loads_are_written_and_unchanged_it_departs_from_nothing(unit, shown, most):
    form = ChoiceForm({"number": shown}, proposals=[], exercises={}, unit=unit)
    field = form.fields["number"] = form._number(START)
    assert (field.initial, field.max_value) == (shown, most)
    assert form.is_valid()
    assert not form.has_changed_number("number")
