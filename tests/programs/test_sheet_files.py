"""Files of all kinds as tables: encodings, separators, workbooks, and what is refused before it is read."""

import datetime as dt
import io
import zipfile

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import Workbook

from programs.exchange.columns import PROGRAM
from programs.sheets.errors import FileError
from programs.sheets.neutral import unescaped
from programs.sheets.read import read_table as read_any
from programs.sheets.table import Table, load_table
from programs.sheets.write import write_csv, write_xlsx

HEAD = ["Day", "Exercise", "Sets", "Reps", "Note"]
TEXT = "Day,Exercise,Sets,Reps,Note\r\nPush,Überzug,3,8–12,café\r\n"


def read_table(data):
    return read_any(data, (PROGRAM,))


def book(*rows, fill=None):
    made = Workbook()
    for row in rows:
        made.active.append(row)
    if fill:
        fill(made)
    out = io.BytesIO()
    made.save(out)
    return out.getvalue()


def packed(**parts):
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in parts.items():
            archive.writestr(name.replace("__", "/"), content)
    return out.getvalue()


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"])
def test_a_table_is_read_in_whatever_encoding(encoding):
    assert read_table(TEXT.encode(encoding)).rows == [(2, ["Push", "Überzug", "3", "8–12", "café"])]


@pytest.mark.parametrize("between", [",", ";", "\t", "|"])
def test_whatever_stands_between_the_cells(between):
    text = f'Day{between}Exercise{between}Sets\nPush{between}"a{between} ""b""\nc"{between}1,5\n'
    if between != ",":
        assert read_table(text.encode()).rows[0][1] == ["Push", f'a{between} "b"\nc', "1,5"]
    else:
        assert read_table(text.encode()).rows[0][1][:2] == ["Push", 'a, "b"\nc']


def test_titles_above_empty_rows_and_a_named_separator_do_no_harm():
    text = "sep=;\n\nOur plan;;\n;;\nDay;Exercise;Sets\n;;\nPush;Curl;3\n"
    assert read_table(text.encode()).rows == [(7, ["Push", "Curl", "3"])]


def test_rows_keep_the_number_of_their_first_line():
    text = 'Day,Exercise,Sets\nA,"two\nlines",1\nB,x,2\n'
    assert [number for number, _cells in read_table(text.encode()).rows] == [2, 4]


def test_a_workbook_is_read_as_it_would_be_typed():
    data = book(
        ["Our plan"],
        [],
        HEAD,
        ["Push", "Curl", 3, dt.datetime(2026, 12, 8), dt.time(2, 30)],  # noqa: DTZ001 - a cell has no zone
        [None, "Row", 3.0, "=A1", True],
        [None, "Dip", 2.5, None, None],
    )
    assert read_table(data).rows == [
        (4, ["Push", "Curl", "3", "2026-12-08", "02:30:00"]),
        (5, ["", "Row", "3", "=A1", "yes"]),
        (6, ["", "Dip", "2.5", "", ""]),
    ]


def test_a_date_without_a_day_keeps_its_two_numbers():
    def fill(made):
        made.active["D2"].number_format = "mmm-yy"

    data = book(HEAD, ["Push", "Curl", 3, dt.date(1950, 10, 1)], fill=fill)
    assert read_table(data).rows[0][1][3] == "1950-10"


def test_text_that_looks_like_a_formula_is_text_and_stays_so():
    def fill(made):
        cell = made.active["E2"]
        cell.value, cell.data_type = "=not run", "s"

    assert read_table(book(HEAD, ["Push", "Curl", 3, "8", ""], fill=fill)).rows[0][1][4] == "'=not run"


def test_merged_cells_hold_their_value_in_the_first_row():
    def fill(made):
        made.active.merge_cells("A2:A3")

    rows = read_table(book(HEAD, ["Push", "Curl", 3, 8, ""], [None, "Row", 3, 8, ""], fill=fill)).rows
    assert [cells[0] for _number, cells in rows] == ["Push", ""]


def test_the_first_sheet_with_our_headings_is_read():
    def fill(made):
        second = made.create_sheet("Plan")
        second.append(HEAD)
        second.append(["Push", "Curl", 3, 8, ""])

    assert len(read_table(book(["Hello"], fill=fill)).rows) == 1


@pytest.mark.parametrize("rows", [5001, 50_000])
def test_too_many_rows_are_refused_with_the_number_that_goes(rows):
    text = "Day,Exercise,Sets,Reps\n" + "Push,Curl,3,8\n" * rows
    with pytest.raises(FileError, match="5,000 rows are the most"):
        read_table(text.encode())


def test_also_in_a_workbook():
    made = Workbook(write_only=True)
    sheet = made.create_sheet()
    sheet.append(HEAD)
    for _ in range(5001):
        sheet.append(["Push", "Curl", 3, 8])
    out = io.BytesIO()
    made.save(out)
    with pytest.raises(FileError, match="5,000 rows are the most"):
        read_table(out.getvalue())


ENTITY = '<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/hostname">]><worksheet>&a;</worksheet>'


def poisoned():
    """A sound workbook whose sheet names a file of the server."""
    source, out = zipfile.ZipFile(io.BytesIO(book(HEAD, ["Push", "Curl", 3, 8, ""]))), io.BytesIO()
    with zipfile.ZipFile(out, "w") as target:
        for name in source.namelist():
            target.writestr(name, ENTITY if name.startswith("xl/worksheets/") else source.read(name))
    return out.getvalue()


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"\x00\x01\x02binary\x00\x03" * 9, "not a table"),
        (b"PK\x03\x04nonsense", "damaged"),
        (packed(a="b"), "not an XLSX workbook"),
        (packed(**{"xl__workbook.xml": "<broken"}), "damaged or protected"),
        (packed(**{"xl__workbook.xml": "x", "xl__bomb.xml": b"\x00" * 41_000_000}), "too large when unpacked"),
        (poisoned(), "damaged or protected"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "old or a protected workbook"),
        (b"name,age\nx,3\n", "No row with headings"),
        (b"Day,Exercise,Sets\n", "nothing below the headings"),
        (b'Day,Exercise,Sets\n"' + b"x" * 200_000, "Line 2 cannot be read"),
        (book(["Hello"]), "No row with headings"),
    ],
    ids=range(11),
)
def test_what_cannot_be_read_is_said(data, said):
    with pytest.raises(FileError, match=said):
        read_table(data)


@settings(deadline=None, max_examples=150)
@given(st.binary(max_size=400) | st.text(max_size=400).map(lambda text: ("Day;Exercise;Sets\n" + text).encode()))
def test_no_bytes_lead_to_anything_but_a_table_or_a_sentence(data):
    try:
        table = read_table(data)
    except FileError:
        return
    assert load_table(table.dump(), PROGRAM) == table


@settings(deadline=None, max_examples=60)
@given(st.integers(0, 5000), st.binary(min_size=1, max_size=4))
def test_nor_does_a_damaged_workbook(place, noise):
    data = bytearray(SOUND)
    data[place % len(data) : place % len(data) + len(noise)] = noise
    try:
        read_table(bytes(data))
    except FileError:
        return


SOUND = book(HEAD, ["Push", "Curl", 3, 8, "x"])
CELLS = st.text(st.characters(exclude_categories=["Cc", "Cs"]), max_size=12) | st.sampled_from(
    ["=1+1", "8–12", "'=x", "-a"]
)


@settings(deadline=None, max_examples=40)
@given(st.lists(st.lists(CELLS, min_size=13, max_size=13), min_size=1, max_size=4))
def test_both_kinds_of_file_hold_the_same(rows):
    rows = [["x", *row[1:]] for row in rows]

    def cells(data):
        return [[unescaped(one) for one in found] for _number, found in read_table(data).rows]

    assert cells(write_csv(PROGRAM, rows)) == rows
    assert cells(write_xlsx(PROGRAM, rows)) == rows


@pytest.mark.parametrize(
    "text", ["", "{", "[]", '[["a"], [[1, [2]]]]', '[["a"], []]', '[["a"], [["x", ["b"]]]]', "[" * 9999]
)
def test_a_preview_that_someone_else_wrote_is_refused(text):
    with pytest.raises(FileError, match="damaged on its way"):
        load_table(text, PROGRAM)


def test_a_preview_is_not_longer_than_a_form_may_be():
    rows = [(n, ["Push", "ä" * 300, "3", "8", ""]) for n in range(4000)]
    text = "Day,Exercise,Sets,Reps,Note\n" + "\n".join(",".join(cells) for _n, cells in rows)
    with pytest.raises(FileError, match="too large"):
        read_table(text.encode())
    assert len(Table(PROGRAM, HEAD, rows[:3000]).dump().encode()) < 2_400_000
