"""From an uploaded file to a table."""

from collections.abc import Sequence

from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext as _

from programs.sheets.csv_read import csv_rows, decoded
from programs.sheets.errors import FileError
from programs.sheets.layout import Layout
from programs.sheets.table import Table, table_of
from programs.sheets.xlsx_read import xlsx_rows

MOST_UPLOAD = 8_000_000


def read_table(data: bytes, layouts: Sequence[Layout]) -> Table:
    """Return the table of an uploaded CSV or XLSX; FileError when it is neither, or too large."""
    if data.startswith(b"PK"):
        return table_of(xlsx_rows(data, layouts), layouts)
    if data.startswith(b"\xd0\xcf\x11\xe0"):
        raise FileError(_("This is an old or a protected workbook. Save it as XLSX without a password, or as CSV."))
    return table_of(csv_rows(decoded(data), layouts), layouts)


def upload_bytes(upload: UploadedFile) -> bytes:
    """Return what was uploaded; FileError when it is too large or empty."""
    if (upload.size or 0) > MOST_UPLOAD:
        raise FileError(_("The file is larger than 8 MB, and no table of this kind is."))
    data: bytes = upload.read()
    if not data.strip():
        raise FileError(_("The file is empty."))
    return data
