"""Changes to blocks, weeks and training days."""

from dataclasses import replace

from django.utils.translation import gettext as _

from programs.document import limits
from programs.document.edits.checks import clean_text
from programs.document.edits.parts import with_children
from programs.document.edits.registry import operation
from programs.document.errors import EditError
from programs.document.find import find, put
from programs.document.keys import MakeKey
from programs.document.model import Block, Day, Document, Week


@operation("add-block")
def add_block(document: Document, fresh: MakeKey, *, name: str = "") -> Document:
    """Put a block of one empty week at the end."""
    name = clean_text(name, limits.NAME, "name") or _("Block %(number)s") % {"number": len(document.blocks) + 1}
    block = Block(fresh(), name, (Week(fresh()),))
    return replace(document, blocks=(*document.blocks, block))


@operation("add-week")
def add_week(document: Document, fresh: MakeKey, *, block: str) -> Document:
    """Put a week at the end of the block, with the days of the week before it but nothing written on them."""
    parent = find(document, block, Block).node
    days = parent.weeks[-1].days if parent.weeks else ()
    week = Week(fresh(), days=tuple(Day(fresh(), day.name) for day in days))
    return with_children(document, parent, (*parent.weeks, week))


@operation("add-day")
def add_day(document: Document, fresh: MakeKey, *, week: str, name: str = "") -> Document:
    """Put an empty training day at the end of the week."""
    parent = find(document, week, Week).node
    name = clean_text(name, limits.NAME, "name") or _("Day %(number)s") % {"number": len(parent.days) + 1}
    return with_children(document, parent, (*parent.days, Day(fresh(), name)))


@operation("mark-deload")
def mark_deload(document: Document, fresh: MakeKey, *, week: str, deload: bool) -> Document:
    """Say whether the week is a planned week of reduced training. What is written in it stays as it is."""
    if not find(document, week, Week).week_number:
        raise EditError(_("The base week is no deload. The ramp says whether the block ends in one."))
    return put(document, week, lambda part: (replace(part, deload=deload),))


@operation("note-week")
def note_week(document: Document, fresh: MakeKey, *, week: str, note: str) -> Document:
    """Write a note that belongs to the week."""
    find(document, week, Week)
    clean = clean_text(note, limits.NOTE, "note")
    return put(document, week, lambda part: (replace(part, note=clean),))
