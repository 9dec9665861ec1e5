"""Read an operation from a form.

A button says the whole change in its value, `name;param=value;...` under the name `do`; what was typed comes from the
form's fields. So each button works by itself, with a script and without.
"""

from collections.abc import Mapping
from typing import Any

from django.utils.translation import gettext as _

from programs.document.edits import Operation
from programs.document.errors import EditError

PRESCRIPTION = ("text", "sets", "reps", "rir", "rest_s", "tempo", "note")
# What a form's own fields may add to an operation.
TYPED: dict[str, tuple[str, ...]] = {
    "rename": ("name",),
    "note-week": ("note",),
    "add-block": ("name",),
    "add-day": ("name",),
    "add-slot": ("exercise", "text"),
    "swap": ("exercise",),
    "copy": ("into",),
    "move-slot": ("day",),
    "prescribe": PRESCRIPTION,
    "ramp": ("weeks",),
}
# Fields of a ramp's form are named after what they rule: every.rir, group.triceps.sets, slot.KEY.load.
RULES = ("every.", "group.", "slot.")
SWITCHES = {"deload", "weaker_first"}
NUMBERS = {"exercise", "index", "by", "version"}


def operation_from(post: Mapping[str, str]) -> Operation:
    """Return the operation; EditError when it cannot be read. Its parameters are checked where it is applied."""
    name, *pairs = post.get("do", "").split(";")
    params: dict[str, Any] = {}
    for pair in pairs:
        key, found, value = pair.partition("=")
        if not found:
            raise EditError(_("That change is incomplete. Reload the page and try again."))
        params[key] = _typed(key, value)
    for key in TYPED.get(name, ()):
        if key in post and key not in params:
            params[key] = _typed(key, post[key])
    if name == "ramp":
        params["deload"] = post.get("deload") == "yes"
        params["rules"] = {field: text for field, text in post.items() if field.startswith(RULES)}
    return Operation(name, params)


def target_of(operation: Operation) -> str:
    """Return the key of the part that the operation speaks of: where its problem is shown."""
    for key in ("slot", "key", "day", "week", "block"):
        if key in operation.params:
            return str(operation.params[key])
    return ""


def _typed(key: str, value: str) -> str | int | bool:
    if key in SWITCHES:
        return value == "yes"
    if key not in NUMBERS:
        return value
    try:
        return int(value)
    except ValueError as error:
        raise EditError(
            _("Choose an exercise from the list.") if key == "exercise" else _("Write a whole number."), key
        ) from error
