"""A table of past training, row by row: what carries down, what is counted, and what is wrong where."""

import datetime as dt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.past.columns import LAYOUTS, SETS
from logbook.past.day_lines import read_days
from logbook.past.reading import HowToRead
from logbook.past.set_lines import read_sets
from programs.sheets.errors import FileError
from programs.sheets.packed import pack, unpack
from programs.sheets.read import read_table
from programs.sheets.write import WRITERS
from tests.logbook.past_fixture import CATALOGUE, FACTS, HOW, TODAY, days_table, sets_table

HEAD = "Date | Exercise | Load | Reps"


def read(table, how=HOW):
    return read_sets(table, CATALOGUE, FACTS, how)


def wrong(found):
    return [(one.cell, one.heading) for one in sorted(found.problems, key=lambda one: (one.index, one.place))]


def test_date_session_and_exercise_carry_down_and_sets_are_counted():
    found = read(
        sets_table(
            "Date | Session | Exercise | Warm-up | Load | Reps",
            "2024-05-01 | am | Curl | yes | 10 | 10",
            "           |    |      |     | 20 | 8",
            "           |    |      |     | 20 | 7",
            "           | pm | Curl |     | 20 | 6",
            "2024-05-02 |    | Curl |     | 20 | 5",
        )
    )
    assert not found.problems
    assert [(line.date.day, line.session, line.warm_up, line.number) for line in found.lines] == [
        (1, "am", True, 1),
        (1, "am", False, 1),
        (1, "am", False, 2),
        (1, "pm", False, 1),
        (2, "", False, 1),
    ]


def test_both_sides_of_a_set_share_its_number():
    found = read(
        sets_table(
            "Date | Exercise | Side | Load | Reps",
            "2024-05-01 | One arm row | left | 20 | 8",
            "           |             | right | 20 | 8",
            "           |             | left | 20 | 7",
            "           |             | right | 20 | 7",
        )
    )
    assert [(line.number, line.side) for line in found.lines] == [(1, "left"), (1, "right"), (2, "left"), (2, "right")]


@pytest.mark.parametrize(
    ("headings", "row", "unit", "kg"),
    [
        ("Load", "20", "kg", 20.0),
        ("Load lb", "20", "lb", 9.0718),
        ("Weight (lbs)", "20", "lb", 9.0718),
        ("Load", "20 lb", "lb", 9.0718),
        ("Unit | Load", "lb | 20", "lb", 9.0718),
    ],
)
def test_a_load_keeps_its_unit_with_kilograms_beside_it(headings, row, unit, kg):
    [line] = read(sets_table(f"Date | Exercise | Reps | {headings}", f"2024-05-01 | Curl | 8 | {row}")).lines
    assert (line.load, line.unit, round(line.load_kg, 4)) == (20.0, unit, kg)


def test_body_weight_alone_needs_no_load_and_others_do():
    found = read(sets_table(HEAD, "2024-05-01 | Pull-up | | 8", "2024-05-01 | Curl | | 8"))
    assert [line.load for line in found.lines] == [0.0]
    assert wrong(found) == [("C3", "Load")]


@pytest.mark.parametrize(
    ("head", "row", "cell"),
    [
        (HEAD, "2024-05-16 | Curl | 20 | 8", "A2"),
        (HEAD, "1989-05-16 | Curl | 20 | 8", "A2"),
        (HEAD, " | Curl | 20 | 8", "A2"),
        (HEAD, "2024-05-01 | | 20 | 8", "B2"),
        (HEAD, "2024-05-01 | Curl | 20 | ", "D2"),
        (HEAD, "2024-05-01 | Curl | 1001 | 8", "C2"),
        (HEAD, "2024-05-01 | Curl | 20 | 101", "D2"),
        (HEAD, "2024-05-01 | Plank | 0 | 601", "D2"),
        (HEAD + " | Side", "2024-05-01 | One arm row | 20 | 8 | ", "E2"),
        (HEAD + " | Unit", "2024-05-01 | Curl | 20 kg | 8 | lb", "C2"),
    ],
)
def test_what_is_wrong_is_said_by_row_and_column(head, row, cell):
    found = read(sets_table(head, row))
    assert [one for one, _heading in wrong(found)] == [cell]
    assert not found.lines


def test_held_seconds_may_be_more_than_repetitions():
    assert read(sets_table(HEAD, "2024-05-01 | Plank | 0 | 180")).lines[0].reps == 180


def test_a_load_over_600_kg_is_asked_about():
    found = read(sets_table(HEAD, "2024-05-01 | Curl | 601 | 8"))
    assert not found.problems
    assert [line.row for line in found.heavy] == [2]


def test_a_set_that_stands_twice_names_the_other_row():
    found = read(sets_table("Set | " + HEAD, "1 | 2024-05-01 | Curl | 20 | 8", "1 | 2024-05-01 | Curl | 20 | 7"))
    assert [(one.cell, "Row 2" in one.message) for one in found.problems] == [("A3", True)]


def test_what_rows_say_of_one_session_must_agree():
    found = read(
        sets_table(
            HEAD + " | Session RPE | Minutes",
            "2024-05-01 | Curl | 20 | 8 | 7 | ",
            "           |      | 20 | 8 | 7 | 60",
            "           |      | 20 | 8 | 8 | ",
        )
    )
    assert wrong(found) == [("E4", "Session RPE")]
    assert found.sessions[dt.date(2024, 5, 1), ""] == {"session_rpe": 7.0, "minutes": 60}


def test_an_open_order_of_dates_is_asked_once_and_is_no_error_in_every_row():
    table = sets_table(HEAD, "5/6/2023 | Curl | 20 | 8", "6/7/2023 | Curl | 20 | 8")
    found = read(table)
    assert found.asks_order
    assert not found.problems
    told = read(table, HowToRead(unit="kg", today=TODAY, order="mdy"))
    assert [line.date for line in told.lines] == [dt.date(2023, 5, 6), dt.date(2023, 6, 7)]


def test_an_unknown_exercise_is_gathered_with_its_rows():
    assert read(sets_table(HEAD, "2024-05-01 | Crul | 20 | 8", "| | 20 | 8")).missing == {"Crul": [2, 3]}


def test_a_day_has_all_five_answers_or_none():
    head = "Date | Fatigue | Sleep | Soreness | Stress | Mood | Body mass"
    found = read_days(
        days_table(head, "2024-05-01 | 3 | 4 | 3 | 4 | 4 | 71,5", "2024-05-02 | | | | | | 71", "2024-05-03 | 3"), HOW
    )
    assert [(line.date.day, len(line.items), line.mass[0]) for line in found.lines] == [(1, 5, 71.5), (2, 0, 71.0)]
    assert {one.row for one in found.problems} == {4}
    assert len(found.problems) == 4


@pytest.mark.parametrize(
    ("row", "cell"),
    [
        ("2024-05-01 | 3 | 4 | 3 | 4 | 6 | ", "F2"),
        ("2024-05-01 | | | | | | 12", "G2"),
        ("2024-05-01 | | | | | | ", "2"),
        (" | | | | | | 70", "A2"),
    ],
)
def test_what_is_wrong_in_a_day(row, cell):
    found = read_days(days_table("Date | Fatigue | Sleep | Soreness | Stress | Mood | Body mass", row), HOW)
    assert [one for one, _heading in wrong(found)] == [cell]


def test_a_day_stands_once():
    found = read_days(days_table("Date | Body mass", "2024-05-01 | 70", "1.5.2024 | 71"), HOW)
    assert [(one.cell, one.message) for one in found.problems] == [("A3", "Row 2 is the same day.")]


@pytest.mark.parametrize(
    ("text", "layout"),
    [
        ("Date,Exercise,Load,Reps\n2024-05-01,Curl,20,8\n", "sets"),
        ("Date,Body mass,Unit,Note\n2024-05-01,70,kg,\n", "days"),
        ("Our log;;;\n\nDate;Movement;Weight kg;Repetitions\n1.5.2024;Curl;22,5;8\n", "sets"),
    ],
)
def test_the_headings_tell_which_table_it_is(text, layout):
    assert read_table(text.encode(), LAYOUTS).layout.key == layout


def test_a_row_too_many_is_refused_and_twenty_thousand_fit_through_the_preview():
    row = ["2024-05-01", "am", "Curl", "1", "", "", "20", "kg", "8", "2", "felt good", "7", "60", ""]
    most = [row] * SETS.most_rows
    table = read_table(WRITERS["csv"](SETS, most), LAYOUTS)
    assert unpack(pack(table), SETS) == table
    with pytest.raises(FileError, match="20,000"):
        read_table(WRITERS["csv"](SETS, [*most, row]), LAYOUTS)


@pytest.mark.parametrize("text", ["", "!!", "YWJj", pack(sets_table(HEAD, "x"))[:-8]])
def test_a_packed_table_that_someone_changed_is_refused(text):
    with pytest.raises(FileError, match="damaged"):
        unpack(text, SETS)


CELL = st.one_of(
    st.text(max_size=12),
    st.sampled_from(
        ["", "2024-05-01", "5/6/2023", "Curl", "One arm row", "20", "20 lb", "8", "left", "yes", "=1", "999"]
    ),
)


@given(st.lists(st.lists(CELL, min_size=1, max_size=14), min_size=1, max_size=12))
@settings(max_examples=150, deadline=None)
def test_whatever_stands_in_a_table_it_is_lines_or_problems(rows):
    table = sets_table(" | ".join(SETS.headings))
    table.rows = list(enumerate(rows, 2))
    found = read(table)
    spoken = {one.row for one in found.problems} | {row for rows in found.missing.values() for row in rows}
    assert {line.row for line in found.lines} | spoken == {row for row, _cells in table.rows} or found.asks_order
    places = [(*line.key, line.place) for line in found.lines]
    assert len(set(places)) == len(places) or found.problems
