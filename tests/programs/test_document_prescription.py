"""A prescription is understood as coaches type it, and shown as it was written."""

import pytest

from programs.document import EditError, read_prescription

FULL = {"sets": (3, 3), "reps": (8, 12), "rir": (1, 2)}


@pytest.mark.parametrize(
    "text",
    [
        "3 x 8-12 @ 1-2 RIR",
        "3×8–12@1–2 RIR",
        "3 sets x 8 to 12 reps at 1 to 2 RIR",
        "3 sets of 8-12 @ RIR 1-2",
        "8-12 reps, 1-2 reps in reserve, 3 sets",
        "3 * 8 - 12 @ 1 - 2",
    ],
)
def test_the_ways_to_write_one_prescription(text):
    assert read_prescription(text).said() == FULL


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("3x10", {"sets": (3, 3), "reps": (10, 10)}),
        ("@2", {"rir": (2, 2)}),
        ("rest 90 s", {"rest_s": 90}),
        ("2 min rest", {"rest_s": 120}),
        ("1.5 min", {"rest_s": 90}),
        (
            "4 x 6 @ 2, 90s, tempo 3-1-1-0",
            {"sets": (4, 4), "reps": (6, 6), "rir": (2, 2), "rest_s": 90, "tempo": "3-1-1-0"},
        ),
    ],
)
def test_what_is_not_said_is_left_as_it_was(text, said):
    assert read_prescription(text).said() == said


@pytest.mark.parametrize(
    "text",
    [
        "",
        "3 x 8 hello",
        "three by eight",
        "3 x",
        "3 x 12-8",
        "0 x 8",
        "21 x 8",
        "3 x 101",
        "3 x 8 @ 11 RIR",
        "rest 901 s",
    ],
)
def test_what_is_not_understood_or_out_of_bounds_is_refused_at_the_field(text):
    with pytest.raises(EditError) as refused:
        read_prescription(text)
    assert refused.value.field == "text"
    assert refused.value.message


@pytest.mark.parametrize("text", ["", "   "])
def test_an_empty_prescription_is_told_what_to_write(text):
    with pytest.raises(EditError, match="Nothing is written here"):
        read_prescription(text)
