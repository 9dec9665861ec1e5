"""The loads that equipment makes, in words."""

import pytest

from programs.services.equipment_text import ladder_words, load_text
from tests.programs.library_fixture import library_data


@pytest.mark.parametrize(
    ("ladder", "short", "full", "count"),
    [
        (
            {"kind": "fixed", "min": 2, "max": 10, "step": 2},
            "2 to 10 kg in steps of 2", "2 to 10 by 2 kg", 5,
        ),
        (
            {"kind": "listed", "values": [1, 2, 3, 4, 6, 8, 10, 12.5, 16]},
            "1 to 16 kg in steps of 1 to 3.5", "1 to 4 by 1, 6 to 10 by 2, 12.5, 16 kg", 9,
        ),
        ({"kind": "listed", "values": [24]}, "24 kg", "24 kg", 1),
        ({"kind": "listed", "values": [5, 10], "unit": "lb"}, "5 to 10 lb in steps of 5", "5, 10 lb", 2),
        (
            {"kind": "fixed", "min": 2.5, "max": 50, "step": 2.5, "unit": "lb"},
            "2.5 to 50 lb in steps of 2.5", "2.5 to 50 by 2.5 lb", 20,
        ),
        (
            {"kind": "plates", "bar": 20, "pairs": [[10, 1], [1.25, 1]]},
            "20 to 42.5 kg in steps of 2.5 to 17.5", "20, 22.5, 40, 42.5 kg", 4,
        ),
        (
            {"kind": "stack", "min": 5, "max": 15, "step": 5, "add_ons": [2.5]},
            "5 to 17.5 kg in steps of 2.5", "5 to 17.5 by 2.5 kg", 6,
        ),
        ({"kind": "none"}, "no countable load", "no countable load", 0),
    ],
)  # fmt: skip
def test_loads_are_told_in_their_own_unit(ladder, short, full, count):
    told = load_text(ladder)
    assert (told.short, told.full, told.count) == (short, full, count)


def test_it_says_what_the_loads_are_made_of():
    plates = {"kind": "plates", "bar": 20, "pairs": [[20, 2], [1.25, 1]]}
    assert ladder_words(plates) == "a bar of 20 kg, 2 pairs of 20, 1 pair of 1.25 kg"
    assert ladder_words({"kind": "stack", "min": 5, "max": 9, "step": 1, "add_ons": [2.5]}).endswith(
        "of 2.5 kg beside it"
    )
    assert ladder_words({"kind": "none"}) == ""


def test_everything_in_the_library_can_be_told():
    for entry in library_data().equipment:
        told = load_text(entry["ladder"])
        assert told.short
        assert told.count or entry["ladder"] == {"kind": "none"}
        assert len(told.full) < 400, entry["slug"]
