"""Loads as people type them become a ladder that the arithmetic reads, or an error beside the field."""

import pytest
from django.core.exceptions import ValidationError

from periodization.loads import ladder_from_dict, settings_of
from programs.forms.equipment import EquipmentForm
from programs.forms.equipment_text import LoadsField, PairsField
from programs.models import Equipment


def form(**fields):
    return EquipmentForm({"name": "Ours", "unit": "kg", **fields})


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        ("2, 4, 6", [2, 4, 6]),
        ("2,4,6", [2, 4, 6]),
        ("2.5, 5", [2.5, 5]),
        ("2,5; 5; 7,5", [2.5, 5, 7.5]),
        ("1,25, 2,5", [1.25, 2.5]),
        ("2\n4\n\n6", [2, 4, 6]),
        ("12.5", [12.5]),
        ("", []),
    ],
)
def test_a_list_of_loads_is_read_in_either_way_of_writing_decimals(text, loads):
    assert LoadsField(required=False).clean(text) == loads


@pytest.mark.parametrize("text", ["two", "2, x", "-5", "5000", "nan", "inf", "2;" * 3 + "1e9"])
def test_what_is_no_load_is_named(text):
    with pytest.raises(ValidationError, match="is not a"):
        LoadsField(required=False).clean(text)


@pytest.mark.parametrize(
    ("text", "pairs"),
    [("20 x 2\n1,25 x 1", [[20, 2], [1.25, 1]]), ("20x2; 10 × 3, 5", [[20, 2], [10, 3], [5, 1]]), ("25", [[25, 1]])],
)
def test_plates_are_read_with_their_pairs(text, pairs):
    assert PairsField(required=False).clean(text) == pairs


def test_pairs_that_are_not_understood_are_refused():
    with pytest.raises(ValidationError):
        PairsField(required=False).clean("20 x two")


@pytest.mark.parametrize(
    ("fields", "ladder", "some"),
    [
        (
            {"kind": "plates", "bar": "20", "pairs": "20 x 1\n2.5 x 1"},
            {"kind": "plates", "bar": 20, "pairs": [[20, 1], [2.5, 1]]},
            (20, 25, 60, 65),
        ),
        ({"kind": "dumbbells", "values": "2, 4, 7.5"}, {"kind": "listed", "values": [2, 4, 7.5]}, (2, 4, 7.5)),
        (
            {"kind": "dumbbells", "low": "2", "high": "6", "step": "2"},
            {"kind": "fixed", "min": 2, "max": 6, "step": 2},
            (2, 4, 6),
        ),
        (
            {"kind": "stack", "low": "5", "high": "10", "step": "5", "add_ons": "2.5"},
            {"kind": "stack", "min": 5, "max": 10, "step": 5, "add_ons": [2.5]},
            (5, 7.5, 10, 12.5),
        ),
        (
            {"kind": "stack", "values": "4.5, 9, 16"},
            {"kind": "stack", "pins": [4.5, 9, 16], "add_ons": []},
            (4.5, 9, 16),
        ),
        ({"kind": "body"}, {"kind": "none"}, (0,)),
        ({"kind": "none", "bar": "77"}, {"kind": "none"}, (0,)),
    ],
)
def test_fields_become_the_ladder_of_their_kind(fields, ladder, some):
    filled = form(**fields)
    assert filled.is_valid(), filled.errors
    assert filled.cleaned_data["ladder"] == ladder
    assert settings_of(ladder_from_dict(ladder)) == pytest.approx(some)


def test_pounds_are_kept_as_pounds():
    filled = form(kind="dumbbells", unit="lb", values="5, 10, 12.5")
    assert filled.is_valid()
    assert filled.cleaned_data["ladder"] == {"kind": "listed", "values": [5, 10, 12.5], "unit": "lb"}


@pytest.mark.parametrize(
    ("fields", "field"),
    [
        ({"kind": "plates", "pairs": "20 x 2"}, "bar"),
        ({"kind": "plates", "bar": "20", "pairs": "0 x 2"}, "bar"),
        ({"kind": "plates", "bar": "20", "pairs": "20 x 99"}, "bar"),
        ({"kind": "dumbbells"}, "values"),
        ({"kind": "dumbbells", "low": "2"}, "high"),
        ({"kind": "dumbbells", "low": "2", "high": "6"}, "step"),
        ({"kind": "dumbbells", "low": "9", "high": "6", "step": "1"}, "values"),
        ({"kind": "dumbbells", "low": "0", "high": "2000", "step": "0"}, "step"),
        ({"kind": "stack", "values": "a"}, "values"),
        ({"kind": "anvil"}, "kind"),
        ({"kind": "none", "unit": "stone"}, "unit"),
        ({"kind": "none", "name": ""}, "name"),
    ],
)
def test_a_fault_stands_beside_its_field(fields, field):
    filled = form(**fields)
    assert not filled.is_valid()
    assert field in filled.errors


@pytest.mark.parametrize(
    ("kind", "ladder"),
    [
        ("plates", {"kind": "plates", "bar": 20, "pairs": [[20, 2], [1.25, 1]]}),
        ("dumbbells", {"kind": "listed", "values": [2, 4, 7.5], "unit": "lb"}),
        ("dumbbells", {"kind": "fixed", "min": 1, "max": 5, "step": 0.5}),
        ("stack", {"kind": "stack", "pins": [4.5, 9], "add_ons": [1.25, 2.5]}),
        ("assisted", {"kind": "stack", "min": 5, "max": 80, "step": 5, "add_ons": []}),
        ("none", {"kind": "none"}),
    ],
)
def test_what_was_saved_comes_back_into_the_form_unchanged(kind, ladder):
    initial = EquipmentForm(instance=Equipment(name="Ours", kind=kind, ladder=ladder)).initial
    again = EquipmentForm({key: value for key, value in initial.items() if value is not None})
    assert again.is_valid(), again.errors
    assert again.cleaned_data["ladder"] == ladder
