"""Reads the worked tables of docs/methods/, so that the pages are the test cases and cannot part from the code.

A table is announced by a line that starts with `**Table NAME.**`; a cell of `-` or `none` means no value.
"""

from pathlib import Path

METHODS = Path(__file__).resolve().parents[2] / "docs" / "methods"


def table(page: str, name: str) -> list[dict[str, str]]:
    """Return the rows of one table as dicts of cells by column heading; a missing table is an error."""
    lines = (METHODS / f"{page}.md").read_text(encoding="utf-8").splitlines()
    starts = [i for i, line in enumerate(lines) if line.startswith(f"**Table {name}.**")]
    assert len(starts) == 1, f"{page}.md must hold one table {name}, not {len(starts)}"
    rest = lines[starts[0] :]
    first = next(i for i, line in enumerate(rest) if line.startswith("|"))
    rows = []
    for line in rest[first:]:
        if not line.startswith("|"):
            break
        rows.append([cell.strip() for cell in line.strip().strip("|").split("|")])
    head, body = rows[0], rows[2:]
    assert body, f"table {name} is empty"
    assert all(len(row) == len(head) for row in body), f"table {name} has a row of another length"
    return [dict(zip(head, row, strict=True)) for row in body]


def number(cell: str) -> float | None:
    """Return the cell as a number; None for a cell without a value."""
    return None if cell in ("-", "none", "unknown", "?") else float(cell)


def numbers(cell: str) -> list[float]:
    """Return a cell of numbers with blanks between them."""
    return [] if cell in ("-", "none") else [float(part) for part in cell.split()]


def places(cell: str) -> float:
    """Return the tolerance that a printed number asks for: a little over half its last digit."""
    digits = len(cell.partition(".")[2])
    return 0.51 * 10**-digits
