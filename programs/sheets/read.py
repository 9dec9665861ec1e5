"""From an uploaded file to a table."""

import io
import zipfile
from collections.abc import Callable, Sequence

from django.core.files.uploadedfile import UploadedFile

from programs.sheets.csv_read import csv_rows, decoded
from programs.sheets.errors import FileError
from programs.sheets.layout import Layout
from programs.sheets.table import Table, table_of
from programs.sheets.xlsx_read import xlsx_rows

MOST_UPLOAD = 8_000_000
# Bytes that a row of a few short cells has in a workbook, unpacked: a row of ours has more.
XLSX_ROW = 200


def read_table(data: bytes, layouts: Sequence[Layout], told: Callable[[int], None] = lambda rows: None) -> Table:
    """Return the table of an uploaded CSV or XLSX; FileError when it is neither, or too large. `told` hears how many
    rows of a workbook are unpacked."""
    if data.startswith(b"PK"):
        return table_of(xlsx_rows(data, layouts, told), layouts)
    if data.startswith(b"\xd0\xcf\x11\xe0"):
        raise FileError("old_workbook")
    return table_of(csv_rows(decoded(data), layouts), layouts)


def upload_bytes(upload: UploadedFile) -> bytes:
    """Return what was uploaded; FileError when it is too large or empty."""
    if (upload.size or 0) > MOST_UPLOAD:
        raise FileError("file_too_large")
    data: bytes = upload.read()
    if not data.strip():
        raise FileError("empty")
    return data


def rows_at_most(data: bytes) -> int:
    """Judge without reading it how many rows an uploaded file may hold: lines of a text, unpacked text of a workbook.

    What a workbook claims to unpack to may be false; `read_table` does not trust it, whoever reads.
    """
    if not data.startswith(b"PK"):
        return data.count(b"\n") or data.count(b"\r")
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            parts = archive.infolist()
    except (zipfile.BadZipFile, ValueError, NotImplementedError, OSError):
        return 0
    return sum(part.file_size for part in parts if part.filename.startswith("xl/worksheets/")) // XLSX_ROW
