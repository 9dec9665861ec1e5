"""Cells of past training: dates however they are written, loads in two units, and what is no number."""

import contextlib
import datetime as dt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.past.cells import DAY_READERS, SET_READERS
from logbook.past.dates import order_of, read_date
from programs.sheets.cells import CellError, read_cell

TODAY = dt.date(2024, 5, 15)


@pytest.mark.parametrize(
    ("text", "order", "day"),
    [
        ("2024-01-05", "", (2024, 1, 5)),
        ("2024/1/5", "", (2024, 1, 5)),
        ("2024-01-05 18:30:00", "", (2024, 1, 5)),
        ("2024-01-05T18:30:00Z", "", (2024, 1, 5)),
        ("5.1.2024", "mdy", (2024, 1, 5)),
        ("05. 01. 24", "", (2024, 1, 5)),
        ("5/1/2024", "dmy", (2024, 1, 5)),
        ("5/1/2024", "mdy", (2024, 5, 1)),
        ("05-01-97", "dmy", (1997, 1, 5)),
        ("1/5/2024 6:30 PM", "mdy", (2024, 1, 5)),
        ("5 Jan 2024", "", (2024, 1, 5)),
        ("Fri, 5 January 2024", "", (2024, 1, 5)),
        ("5. März 2024", "", (2024, 3, 5)),
        ("Jan 5, 2024", "", (2024, 1, 5)),
        ("5-Jan-24", "", (2024, 1, 5)),
        ("45296", "", (2024, 1, 5)),
        ("45296.77", "", (2024, 1, 5)),
        ("2024-05-15", "", (2024, 5, 15)),
        ("1990-01-01", "", (1990, 1, 1)),
    ],
)
def test_a_day_is_read_however_it_is_written(text, order, day):
    assert read_date(text, order, TODAY) == dt.date(*day)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("2024-05-16", "in the future"),
        ("1989-12-31", "before 1990"),
        ("31/12/89", "before 1990"),
        ("2024-02-30", "no such day"),
        ("13/13/2024", "no such day"),
        ("5 Foo 2024", "no month"),
        ("Jan 2024", "no day"),
        ("5 Jan", "no day"),
        ("2024-01", "no day"),
        ("yesterday", "no day"),
    ],
)
def test_a_day_that_cannot_be_says_why(text, why):
    with pytest.raises(CellError, match=why):
        read_date(text, "dmy", TODAY)


@pytest.mark.parametrize(
    ("texts", "told"),
    [
        (["5/6/2024", "13/6/2024"], ("dmy", False)),
        (["5/6/2024", "6/13/2024"], ("mdy", False)),
        (["5/6/2024", "6/7/2024"], ("", True)),
        (["13/6/2024", "6/13/2024"], ("", True)),
        (["2024-05-06", "5.6.2024"], ("", False)),
        ([], ("", False)),
    ],
)
def test_a_person_is_asked_only_where_the_file_leaves_the_order_open(texts, told):
    assert order_of(texts) == told


@pytest.mark.parametrize(
    ("key", "text", "value"),
    [
        ("load", "82,5", (82.5, "")),
        ("load", "82.5 kg", (82.5, "kg")),
        ("load", "185lbs", (185.0, "lb")),
        ("load", "56,699", (56.699, "")),
        ("load", "BW", (0.0, "")),
        ("load", "bw + 10 kg", (10.0, "kg")),
        ("load", "0", (0.0, "")),
        ("load", "–", None),
        ("reps", "8", 8),
        ("reps", "8.0", 8),
        ("reps", "45 s", 45),
        ("rir", "1,5", 1.5),
        ("rir", "", None),
        ("side", "L", "left"),
        ("warm_up", "w", True),
        ("unit", "Pounds", "lb"),
        ("minutes", "60 min", 60),
        ("session_rpe", "7.5", 7.5),
        ("note", "'=heavy", "=heavy"),
    ],
)
def test_what_a_cell_means(key, text, value):
    assert read_cell(SET_READERS, key, text) == value


@pytest.mark.parametrize(
    ("key", "text", "why"),
    [
        ("load", "1,250", "thousand or a fraction"),
        ("load", "heavy", "Write a number"),
        ("load", "80 stone", "Write a number"),
        ("load", "-20", "0 or more"),
        ("load", "8..5", "not a number"),
        ("load", "=A1*2", "formula"),
        ("reps", "8-12", "not a range"),
        ("reps", "8.5", "whole number"),
        ("reps", "601", "between 0 and 600"),
        ("rir", "11", "between 0 and 10"),
        ("rir", "1.3", "half steps"),
        ("set", "0", "between 1 and 100"),
        ("side", "middle", "left, right"),
        ("unit", "stone", "kg or lb"),
        ("warm_up", "perhaps", "yes"),
        ("note", "x" * 301, "longer than 300"),
    ],
)
def test_a_cell_that_cannot_be_read_says_why(key, text, why):
    with pytest.raises(CellError, match=why):
        read_cell(SET_READERS, key, text)


@given(st.sampled_from(sorted(SET_READERS)), st.text(max_size=40))
@settings(max_examples=300, deadline=None)
def test_no_text_makes_a_reader_fall(key, text):
    for readers in (SET_READERS, DAY_READERS):
        if key in readers:
            with contextlib.suppress(CellError):
                read_cell(readers, key, text)


@given(st.text(alphabet="0123456789-/. :TZJanFebMr,", max_size=24), st.sampled_from(["", "dmy", "mdy"]))
@settings(max_examples=300, deadline=None)
def test_a_date_is_a_believable_day_or_an_error(text, order):
    with contextlib.suppress(CellError):
        day = read_date(text, order, TODAY)
        assert day is None or dt.date(1990, 1, 1) <= day <= TODAY


@given(st.dates(dt.date(1990, 1, 1), TODAY), st.sampled_from(["dmy", "mdy"]))
@settings(max_examples=100, deadline=None)
def test_a_day_written_in_either_order_comes_back(day, order):
    form = "%d/%m/%Y" if order == "dmy" else "%m/%d/%Y"
    assert read_date(day.strftime(form), order, TODAY) == day
