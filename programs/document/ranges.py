"""Numbers and ranges as people type them."""

import re

from django.utils.translation import gettext as _

from programs.document.errors import EditError
from programs.document.model import Range

# Hyphen, the dashes a phone's keyboard makes of it, or the word.
RANGE = r"(\d{1,4})(?:\s*(?:-|‐|‑|‒|–|—|−|to)\s*(\d{1,4}))?"
_ONLY = re.compile(rf"^\s*{RANGE}\s*$", re.IGNORECASE)


def read_range(text: str, bounds: Range, field: str, name: str) -> Range:
    """Return both ends of `8`, `8-12`, `8–12` or `8 to 12`; EditError for anything else or outside `bounds`."""
    match = _ONLY.match(text)
    if match is None:
        raise EditError(_("%(name)s: write a number or a range, such as 8 or 8–12.") % {"name": name}, field)
    return check_range((match[1], match[2]), bounds, field, name)


def check_range(ends: tuple[str, str | None], bounds: Range, field: str, name: str) -> Range:
    low, high = int(ends[0]), int(ends[1] or ends[0])
    if low > high:
        raise EditError(
            _("%(name)s: the range runs from the smaller number to the larger one.") % {"name": name}, field
        )
    if low < bounds[0] or high > bounds[1]:
        raise EditError(
            _("%(name)s must lie between %(low)s and %(high)s.") % {"name": name, "low": bounds[0], "high": bounds[1]},
            field,
        )
    return low, high


def show_range(ends: Range) -> str:
    return str(ends[0]) if ends[0] == ends[1] else f"{ends[0]}–{ends[1]}"
