"""Bounds that hold after every change."""

from django.utils.translation import gettext, ngettext
from django.utils.translation import gettext_noop as _

from programs.document import limits
from programs.document.errors import EditError
from programs.document.model import Document


def check_size(document: Document) -> None:
    _most(len(document.blocks), limits.BLOCKS, _("A program holds %(most)s blocks at most."))
    for block in document.blocks:
        _most(len(block.weeks), limits.WEEKS, _("A block holds %(most)s weeks at most."))
        for week in (*block.weeks, *([block.ramp.base] if block.ramp else [])):
            _most(len(week.days), limits.DAYS, _("A week holds %(most)s training days at most."))
            for day in week.days:
                _most(len(day.slots), limits.SLOTS, _("A training day holds %(most)s exercises at most."))


def _most(count: int, most: int, message: str) -> None:
    if count > most:
        raise EditError(gettext(message) % {"most": most})


def clean_text(value: str, most: int, field: str) -> str:
    """Return the text on one line without spaces at its ends; EditError when it is too long."""
    text = " ".join(str(value).split())
    if len(text) > most:
        raise EditError(
            ngettext("At most %(most)s character.", "At most %(most)s characters.", most) % {"most": most}, field
        )
    return text
