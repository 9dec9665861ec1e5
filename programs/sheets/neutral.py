"""Cells that a spreadsheet would run as a formula: escaped on the way out, and read back as they were."""

import re

_RUNS = re.compile(r"^('*)[=+\-@\t\r]")


def escaped(text: str) -> str:
    """Put an apostrophe before text that begins like a formula, so that it is shown and not run."""
    return f"'{text}" if _RUNS.match(text) else text


def unescaped(text: str) -> str:
    """Take that apostrophe away again."""
    return text[1:] if (match := _RUNS.match(text)) and match[1] else text


def is_formula(text: str) -> bool:
    return text.lstrip().startswith("=")
