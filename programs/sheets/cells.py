"""What is true of a cell of any table."""

from collections.abc import Callable, Mapping
from typing import Any

from django.utils.translation import gettext as _

from programs.sheets.neutral import is_formula, unescaped

YES = {"yes", "y", "x", "true", "1", "✓"}
NO = {"", "no", "n", "false", "0", "-", "–"}


class CellError(ValueError):
    """A cell that cannot be read. `suggestion` is what it probably was meant to be, or empty."""

    def __init__(self, message: str, suggestion: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.suggestion = suggestion


def read_cell(readers: Mapping[str, Callable[[str], Any]], key: str, text: str) -> Any:
    """Return what the reader of column `key` makes of the cell; CellError for one that it cannot read."""
    if is_formula(text):
        raise CellError(_("This cell holds a formula. Type its result instead; formulas are not run."))
    return readers[key](unescaped(text).strip())


def a_text_of(most: int) -> Callable[[str], str]:
    def read(text: str) -> str:
        if len(text) > most:
            raise CellError(_("This is longer than %(most)s characters.") % {"most": most})
        if any(ord(char) < 32 and char not in "\n\t" for char in text):
            raise CellError(_("This holds a character that cannot be printed."))
        return " ".join(text.split())

    return read


def a_yes_of(*words: str) -> Callable[[str], bool]:
    """Return a reader of yes and no; `words` mean yes, too."""
    yes = YES | set(words)

    def read(text: str) -> bool:
        if (word := text.casefold()) in yes:
            return True
        if word in NO:
            return False
        raise CellError(_("Write yes, or leave it empty."))

    return read
