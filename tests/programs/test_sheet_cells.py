"""What a cell means, and what is said where it means nothing."""

import pytest

from programs.exchange.cells import READERS
from programs.exchange.columns import COLUMNS, PROGRAM
from programs.exchange.dates import made_date
from programs.sheets.cells import CellError, read_cell
from programs.sheets.layout import letter
from programs.sheets.names import Catalogue, Known, plain
from programs.sheets.neutral import escaped, unescaped


@pytest.mark.parametrize(
    ("key", "text", "value"),
    [
        ("reps", "8-12", (8, 12)),
        ("reps", "8–12", (8, 12)),
        ("reps", "8 to 12 reps", (8, 12)),
        ("reps", "10", (10, 10)),
        ("sets", "3.0", (3, 3)),
        ("sets", "3,0", (3, 3)),
        ("sets", "3 sets", (3, 3)),
        ("rir", "@1-2 RIR", (1, 2)),
        ("rir", "", None),
        ("week", "1–4", (1, 4)),
        ("week", "Week 2", (2, 2)),
        ("rest", "90", 90),
        ("rest", "90 s", 90),
        ("rest", "90.0", 90),
        ("rest", "2 min", 120),
        ("rest", "1,5 min", 90),
        ("rest", "2:30", 150),
        ("rest", "02:30:00", 150),
        ("rest", "0", 0),
        ("rest", "", None),
        ("deload", "Yes", True),
        ("deload", "", False),
        ("pair", "a", "A"),
        ("pair", "A1", "A"),
        ("pair", "–", ""),
        ("note", "'=now", "=now"),
        ("note", "- slowly", "- slowly"),
    ],
)
def test_a_cell_is_read_as_people_write(key, text, value):
    assert read_cell(READERS, key, text) == value


@pytest.mark.parametrize(
    ("key", "text", "said"),
    [
        ("reps", "12-8", "from the smaller number"),
        ("reps", "8.5", "write a number or a range"),
        ("reps", "many", "write a number or a range"),
        ("sets", "0", "between 1 and 20"),
        ("sets", "50", "between 1 and 20"),
        ("rir", "11", "between 0 and 10"),
        ("week", "0", "between 1 and 26"),
        ("week", "1-40", "between 1 and 26"),
        ("rest", "1000", "between 0 and 900"),
        ("rest", "long", "Write seconds"),
        ("pair", "with row", "one letter"),
        ("deload", "maybe", "Write yes"),
        ("tempo", "1" * 13, "longer than 12"),
        ("tempo", "2002-01-03", "date out of this tempo"),
        ("note", "x" * 301, "longer than 300"),
        ("note", "a\x07b", "cannot be printed"),
        ("reps", "=8+4", "holds a formula"),
        ("exercise", ' =HYPERLINK("http://x")', "holds a formula"),
    ],
)
def test_what_a_cell_cannot_be_is_said(key, text, said):
    with pytest.raises(CellError, match=said):
        read_cell(READERS, key, text)


@pytest.mark.parametrize(
    "text",
    ["8-Dec", "12-Aug", "Dec-8", "Aug 12", "2026-12-08", "2026-08-12 00:00:00", "8/12/2026", "12/8", "08.12.2026",
     "8.12.", "8. Dez", "8-déc", "12-ago", "46364", "8-12-2026"],
)  # fmt: skip
def test_a_date_that_was_a_range_is_seen_and_the_range_proposed(text):
    with pytest.raises(CellError, match="made a date") as error:
        read_cell(READERS, "reps", text)
    assert error.value.suggestion == "8–12"


@pytest.mark.parametrize(
    ("text", "range"), [("Oct-50", "10–50"), ("2020-12", "12–20"), ("3-Mar", "3"), ("1/10", "1–10")]
)
def test_also_where_the_second_number_became_a_year(text, range):
    assert made_date(text).range == range


@pytest.mark.parametrize("text", ["8-12", "8–12", "3", "10 to 12", "", "curl", "2026", "8 reps", "120"])
def test_what_is_no_date_stays(text):
    assert made_date(text) is None


@pytest.mark.parametrize("text", ["=1", "+1", "-1", "@a", "\tx", "\rx", "'=1", "''=1", "'quoted", "plain", "", "8–12"])
def test_nothing_that_leaves_would_run_and_all_comes_back(text):
    assert unescaped(escaped(text)) == text
    assert not escaped(text).startswith(("=", "+", "-", "@", "\t", "\r"))


def test_headings_are_known_by_other_words_too_and_may_not_come_twice():
    places, wrong, left_out = PROGRAM.read_headings(["day", "Movement", "SETS", "Repetitions", "Coach"])
    assert places == {"day": 0, "exercise": 1, "sets": 2, "reps": 3}
    assert (wrong, left_out) == ([], ["Coach"])
    _places, wrong, _left = PROGRAM.read_headings(["Day", "Exercise", "Sets", "Reps", "rep range"])
    assert wrong == ["“Reps” heads two columns, D and E. Take one away."]
    _places, wrong, _left = PROGRAM.read_headings(["Day", "Sets", "RIR"])
    assert wrong == ["These columns are missing: Exercise, Reps."]


def test_a_row_is_the_heading_row_when_three_cells_are_headings():
    assert PROGRAM.is_heading([column.heading for column in COLUMNS])
    assert not PROGRAM.is_heading(["Day", "Reps", "Reps"])


def test_columns_have_the_letters_of_a_spreadsheet():
    assert [letter(place) for place in (0, 25, 26, 51, 52)] == ["A", "Z", "AA", "AZ", "BA"]


CATALOGUE = Catalogue.of(
    [
        Known(1, "incline-dumbbell-curl", "Dumbbell curl on an incline bench", 90),
        Known(2, "leg-press", "Leg press", 120),
        Known(3, "own/press", "Leg press, our way", 120),
        Known(4, "old-curl", "Old curl", 90, archived=True),
    ]
)


@pytest.mark.parametrize("name", ["LEG PRESS", " leg  press", "Leg-Press", "leg-press", "Lég press"])
def test_an_exercise_is_found_however_it_is_spelt(name):
    assert CATALOGUE.named(name).pk == 2


def test_near_names_are_proposed_nearest_first_and_no_archived_one():
    assert CATALOGUE.near("Leg pres")[0] == "Leg press"
    assert CATALOGUE.near("Incline curl dumbbell")[0] == "Dumbbell curl on an incline bench"
    assert "Old curl" not in CATALOGUE.near("Old curls")
    assert CATALOGUE.near("zzz") == []
    assert plain("É. Ä-b") == "e a b"
