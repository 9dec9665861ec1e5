"""A file that cannot be read at all: why, by a code and its parameters, worded for whoever reads it."""

from typing import Any

from django.utils.translation import gettext, gettext_noop

FAULTS = {
    "no_file": gettext_noop("Choose a file."),
    "not_text": gettext_noop("This is not a table: neither CSV nor XLSX. Save it again as one of the two."),
    "csv_line": gettext_noop(
        "Line %(line)s cannot be read: a cell is far too long, or a quotation mark is never closed."
    ),
    "too_much_text": gettext_noop("The table holds too much text to be looked at at once. Cut it into several files."),
    "preview_damaged": gettext_noop("The preview was damaged on its way. Choose the file again."),
    "no_headings": gettext_noop("No row with headings was found. The first row names the columns: %(names)s …"),
    "no_rows": gettext_noop("There is nothing below the headings."),
    "old_workbook": gettext_noop(
        "This is an old or a protected workbook. Save it as XLSX without a password, or as CSV."
    ),
    "file_too_large": gettext_noop("The file is larger than 8 MB, and no table of this kind is."),
    "empty": gettext_noop("The file is empty."),
    "no_safe_reader": gettext_noop(
        "Workbooks cannot be read safely here: defusedxml is missing. Save the table as CSV."
    ),
    "workbook_damaged_or_protected": gettext_noop(
        "This workbook is damaged or protected. Save it again as XLSX, or as CSV."
    ),
    "workbook_damaged": gettext_noop("This workbook is damaged. Save it again as XLSX, or as CSV."),
    "no_workbook": gettext_noop("This is not an XLSX workbook. Save the table as XLSX or as CSV."),
    "unpacked_too_large": gettext_noop(
        "The workbook is too large when unpacked. Keep only the table, or save it as CSV."
    ),
    "program_too_large": gettext_noop(
        "The table is too large: %(rows)s rows are the most for one program, and none needs more."
    ),
    "past_too_large": gettext_noop(
        "The table is too large: %(rows)s rows are the most at once. Cut it into several files, by year for example."
    ),
    "past_changed": gettext_noop(
        "Nothing was saved: not all of it is right, or what the log holds has changed meanwhile. Look again."
    ),
    "past_often": gettext_noop("It was begun several times and came to no end. Cut the table into several files."),
    "past_software": gettext_noop("A fault in the software. Nothing was saved."),
}


def fault_words(code: str, params: dict[str, Any]) -> str:
    """Return the fault in the reader's language. What is no code is words already."""
    return gettext(FAULTS[code]) % params if code in FAULTS else code


class FileError(ValueError):
    """The file is not what it should be. `code` is one of FAULTS, or the words themselves where no other than the
    person who waits for the answer will read them."""

    def __init__(self, code: str, **params: Any) -> None:
        super().__init__(code)
        self.code, self.params = code, params

    def __str__(self) -> str:
        return fault_words(self.code, self.params)


class Stopped(Exception):
    """Someone wants it no more, or it was given to another worker: what was written is taken back."""
