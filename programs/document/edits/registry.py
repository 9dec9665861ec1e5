"""The list of operations, by name."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from django.utils.translation import gettext as _

from programs.document.edits.checks import check_size
from programs.document.errors import EditError
from programs.document.keys import MakeKey, random_key, unused
from programs.document.model import Block, Document, Week
from programs.document.settle import settle

Edit = Callable[..., Document]
OPERATIONS: dict[str, Edit] = {}
# Operations that set and clear the marks of what was changed by hand themselves.
OF_RAMPS = {"ramp", "ramp-off", "release"}


@dataclass(frozen=True, slots=True)
class Operation:
    """What to do: the operation's name and its parameters."""

    name: str
    params: Mapping[str, Any] = field(default_factory=dict)


def operation(name: str) -> Callable[[Edit], Edit]:
    """Register a function(document, fresh, **params) under `name`; `fresh` makes keys that are not in use."""

    def register(edit: Edit) -> Edit:
        OPERATIONS[name] = edit
        return edit

    return register


def apply_to_week(week: Week, operation: Operation, make_key: MakeKey) -> Week:
    """Return a week after a change to it alone: what a change is tried on, without the block's ramp and other weeks."""
    document = Document((Block("of-week", "", (week,)),))
    changed = OPERATIONS[operation.name](document, unused(document, make_key), **operation.params)
    check_size(changed)
    return changed.blocks[0].weeks[0]


def apply_operation(
    document: Document,
    operation: Operation,
    make_key: MakeKey = random_key,
    leads: Mapping[int, str] | None = None,
) -> Document:
    """Return the changed document; EditError when the change is unknown, malformed, impossible or out of bounds.

    In blocks with a ramp the weeks follow the change. `leads` says which muscle group's ramp an exercise (by id)
    follows; a document without a ramp does not need it.
    """
    edit = OPERATIONS.get(operation.name)
    if edit is None:
        raise EditError(_("That change is not known."))
    fresh = unused(document, make_key)
    try:
        extra = {"leads": leads or {}} if operation.name == "ramp" else {}
        changed = edit(document, fresh, **{**operation.params, **extra})
    except TypeError as error:
        # A parameter that is missing or unknown: a form that is older or newer than the server.
        raise EditError(_("That change is incomplete. Reload the page and try again.")) from error
    # Before the ramps write it into every week.
    check_size(changed)
    changed = settle(document, changed, fresh, leads or {}, mark=operation.name not in OF_RAMPS)
    check_size(changed)
    return changed
