"""A table becomes a program, or says by row and column why not; a program becomes a table."""

import pytest
from hypothesis import given, settings

from programs.document import document_from_json, document_to_json
from programs.document.find import places
from programs.document.model import Day, Slot
from programs.exchange.columns import PROGRAM
from programs.exchange.sheet_build import build_document, with_numbered_keys
from programs.exchange.sheet_rows import read_lines
from programs.exchange.sheet_write import sheet_rows, template_rows
from programs.sheets.names import Catalogue, Known
from programs.sheets.read import read_table
from programs.sheets.table import Table
from programs.sheets.typed import mend
from programs.sheets.write import write_csv
from tests.programs.random_documents import EXERCISES, documents

NAMES = {1: "Wand curl", 2: "Slow row", 3: "Close push"}
CATALOGUE = Catalogue.of([Known(pk, EXERCISES[pk], name, 60) for pk, name in NAMES.items()])
HEAD = ["Block", "Week", "Day", "Pair", "Exercise", "Sets", "Reps", "RIR", "Rest", "Note"]


def read(*rows, head=HEAD):
    found = read_lines(Table(PROGRAM, list(head), [(n, list(row)) for n, row in enumerate(rows, 2)]), CATALOGUE)
    document = None
    if not (found.problems or found.missing or found.headings_wrong):
        document = build_document(found)
    return found, document


def said(*rows, head=HEAD):
    return [(one.cell, one.message) for one in read(*rows, head=head)[0].problems]


def shown(text):
    """What of a text a cell can hold."""
    return " ".join("".join(c for c in text if ord(c) >= 32 or c in "\n\t").split())


def slots(document):
    return [place.node for place in places(document) if isinstance(place.node, Slot)]


def test_empty_cells_are_as_in_the_row_above_and_a_range_of_weeks_is_written_out():
    found, document = read(
        ["One", "1-2", "Push", "", "Close push", "3", "8–12", "1–2", "2 min", "slowly"],
        ["", "", "", "", "wand curl", "2-3", "10", "", "", ""],
        ["", "3", "Push", "", "Slow row", "3", "8", "2", "0", ""],
    )
    assert found.problems == []
    [block] = document.blocks
    assert (block.name, len(block.weeks)) == ("One", 3)
    assert [[(day.name, len(day.slots)) for day in week.days] for week in block.weeks] == [[("Push", 2)]] * 2 + [
        [("Push", 1)]
    ]
    first, second, *_rest, last = slots(document)
    assert (first.exercise, first.sets, first.reps, first.rir, first.rest_s, first.note) == (
        3, (3, 3), (8, 12), (1, 2), 120, "slowly",
    )  # fmt: skip
    assert (second.sets, second.rir, second.rest_s) == ((2, 3), (1, 2), 60)
    assert (last.rir, last.rest_s) == ((2, 2), 0)


def test_a_row_that_names_only_a_day_opens_it_and_one_week_without_a_column_is_enough():
    _found, document = read(
        ["Push", "", "", ""],
        ["", "Wand curl", "3", "8"],
        ["Rest", "", "", ""],
        head=["Day", "Exercise", "Sets", "Reps"],
    )
    days = [place.node for place in places(document) if isinstance(place.node, Day)]
    assert [(day.name, len(day.slots)) for day in days] == [("Push", 1), ("Rest", 0)]


def test_neighbours_with_one_letter_are_a_pair():
    _found, document = read(
        ["", "", "Push", "a1", "Wand curl", "3", "8", "", "", ""],
        ["", "", "", "A2", "Close push", "3", "8", "", "", ""],
        ["", "", "", "", "Slow row", "3", "8", "", "", ""],
    )
    assert [slot.pair for slot in slots(document)] == ["A", "A", ""]


def test_every_cell_that_is_wrong_is_named_at_once():
    found, _document = read(
        ["One", "0", "Push", "", "Wand curl", "3", "12-8", "", "", ""],
        ["", "", "", "?", "Wand curl", "", "8-Dec", "=A1", "", ""],
        ["", "", "", "", "", "3", "8", "", "", ""],
        ["", "", "", "", "Curly thing", "3", "8", "99", "", ""],
    )
    assert [one.cell for one in found.problems] == ["B2", "G2", "D3", "G3", "H3", "F3", "E4", "H5"]
    assert found.missing == {"Curly thing": [5]}
    assert "Merged cells" in found.problems[6].message


@pytest.mark.parametrize(
    ("rows", "cell", "words"),
    [
        ([["", "", "", "", "Wand curl", "3", "8", "", "", ""]], "C2", "no row above names a training day"),
        ([["", "1", "Push", "", "Wand curl", "", "8", "", "", ""]], "F2", "This cell is empty"),
        ([["", "2", "Push", "", "Wand curl", "3", "8", "", "", ""]], "B2", "week 1 is missing"),
        ([["", "1", "Push", "A", "Wand curl", "3", "8", "", "", ""]], "D2", "A stands alone"),
        (
            [["", "1", f"Day {n}", "", "Wand curl", "3", "8", "", "", ""] for n in range(8)],
            "C2",
            "at most 7 training days; this one has 8",
        ),
        ([["", "1", "Push", "", "Wand curl", "3", "8", "", "", ""]] * 31, "32", "at most 30 exercises"),
        (
            [[f"Block {n}", "1", "Push", "", "Wand curl", "3", "8", "", "", ""] for n in range(25)],
            "A26",
            "at most 24 blocks",
        ),
        ([["", "1-26", "Push", "", "Wand curl", "3", "8", "", "", ""]] * 200, "194", "more than 5,000 exercises"),
    ],
)  # fmt: skip
def test_what_is_wrong_between_rows_is_said_with_its_place(rows, cell, words):
    assert any(place == cell and words in message for place, message in said(*rows))


def test_a_week_has_one_note():
    head = [*HEAD[:3], "Exercise", "Sets", "Reps", "Week note"]
    row = ["", "1", "Push", "Wand curl", "3", "8"]
    assert said([*row, "easy"], [*row, ""], head=head) == []
    [(cell, message)] = said([*row, "easy"], [*row, "hard"], head=head)
    assert (cell, "easy" in message) == ("G3", True)


@settings(deadline=None, max_examples=60)
@given(documents(ramps=False, sides=False))
def test_a_program_written_as_a_table_reads_as_the_same_table(doc):
    rows = list(sheet_rows(doc, NAMES))
    if not rows:
        return
    table = read_table(write_csv(PROGRAM, rows), (PROGRAM,))
    found = read_lines(table, CATALOGUE)
    again = build_document(found)
    # Letters that stand alone are no pair: a document may hold them, a table may not.
    assert [one.message for one in found.problems if "stands alone" not in one.message] == []
    assert [len(week.days) for block in again.blocks for week in block.weeks] == [
        len(week.days) for block in doc.blocks for week in block.weeks
    ]
    told = [(s.exercise, s.sets, s.reps, s.rir, s.rest_s, shown(s.note)) for s in slots(doc)]
    assert [(s.exercise, s.sets, s.reps, s.rir, s.rest_s, s.note) for s in slots(again)] == told
    twice = list(sheet_rows(again, NAMES))
    third = build_document(read_lines(read_table(write_csv(PROGRAM, twice), (PROGRAM,)), CATALOGUE))
    assert with_numbered_keys(third) == with_numbered_keys(again)
    assert document_from_json(document_to_json(again)) == again


def test_no_range_leaves_as_what_a_spreadsheet_makes_a_date_of():
    doc = read(["", "1", "Push", "", "Wand curl", "3-4", "8-12", "1-2", "", ""])[1]
    [row] = sheet_rows(doc, NAMES)
    assert [row[PROGRAM.headings.index(name)] for name in ("Sets", "Reps", "RIR")] == ["3–4", "8–12", "1–2"]


def test_the_template_is_right_as_it_stands():
    table = read_table(write_csv(PROGRAM, template_rows(list(NAMES.values()))), (PROGRAM,))
    found = read_lines(table, CATALOGUE)
    document = build_document(found)
    assert found.problems == []
    [block] = document.blocks
    assert [(len(week.days), week.deload) for week in block.weeks] == [(2, False)] * 3 + [(2, True)]
    assert [slot.pair for slot in block.weeks[0].days[0].slots] == ["", "A", "A"]


def test_what_is_typed_on_the_preview_goes_into_its_cell_and_to_all_rows_of_a_name():
    table = Table(PROGRAM, HEAD, [(2, ["", "1", "Push", "", "Cu rl"]), (3, ["", "", "", "", "Cu  rl", "3"])])
    mend(table, {(0, 5): "4", (9, 0): "x", (0, 99): "x"}, {"Cu rl": "Wand curl"})
    assert table.rows == [(2, ["", "1", "Push", "", "Wand curl", "4"]), (3, ["", "", "", "", "Wand curl", "3"])]
