"""Read a program from JSON text, as strictly as it is written. Nothing here knows the database."""

import json
import re
from dataclasses import dataclass, field
from typing import Any

from django.utils.translation import gettext as _

from programs.document import limits
from programs.document.errors import DocumentError
from programs.document.parse_values import a_list, a_text, an_integer, an_object
from programs.exchange.json_write import ABOUT, SCHEMA
from programs.exchange.own import read_own_equipment, read_own_exercise
from programs.sheets.errors import FileError

MOST_BYTES = 2_000_000
MOST_EXERCISES = 600
NAME = 120
NOTE = 5000
REFERENCE = re.compile(r"^(own/)?[a-zA-Z0-9_-]{1,80}\Z")
STATUSES = ("novice", "intermediate", "advanced")
FIELDS = {"$schema", *ABOUT, "exercises", "equipment", "blocks"}


@dataclass(frozen=True, slots=True)
class FileExercise:
    """An exercise that the file names; `definition` is there for a practice's own."""

    reference: str
    name: str
    definition: dict[str, Any] | None = None


@dataclass(frozen=True, slots=True)
class ProgramFile:
    """A program as the file tells it. `blocks` still name exercises by reference and are not checked yet."""

    name: str
    note: str
    written_for: str
    weekdays: list[int]
    exercises: dict[str, FileExercise]
    blocks: list[Any]
    equipment: dict[str, dict[str, Any]] = field(default_factory=dict)


def load_json(text: str) -> dict[str, Any]:
    """Return the object that the text holds; FileError when it is no JSON, or holds what no program can."""
    if len(text.encode(errors="replace")) > MOST_BYTES:
        raise FileError(_("The file is larger than 2 MB, and no program is."))
    try:
        value = json.loads(text, object_pairs_hook=_no_twice, parse_constant=_no_constant)
    except json.JSONDecodeError as error:
        raise FileError(
            _("This is not JSON: line %(line)s, column %(column)s: %(why)s.")
            % {"line": error.lineno, "column": error.colno, "why": error.msg}
        ) from error
    except RecursionError as error:
        raise FileError(_("The file is nested too deeply.")) from error
    except ValueError as error:  # a number of thousands of digits, a name given twice, NaN
        raise FileError(_("This is not JSON: %(why)s.") % {"why": str(error)[:200]}) from error
    if not isinstance(value, dict):
        raise FileError(_("The file does not hold a program."))
    _refuse_odd_text(value)
    return value


def read_program(data: dict[str, Any]) -> ProgramFile:
    """Return the program; DocumentError with the path of the trouble when a part of it is not as it should be."""
    if data.get("$schema") != SCHEMA:
        raise DocumentError("$schema", f"must be {SCHEMA}; other kinds and later versions are not read.")
    an_object(data, "", FIELDS)
    name = a_text(data.get("name"), "name", NAME).strip()
    if not name:
        raise DocumentError("name", "is empty.")
    status = data.get("written_for", "intermediate")
    if status not in STATUSES:
        raise DocumentError("written_for", f"must be one of {', '.join(STATUSES)}.")
    weekdays = list(a_list(data.get("weekdays", []), "weekdays", 7, lambda v, p: an_integer(v, p, (0, 6))))
    if len(set(weekdays)) != len(weekdays):
        raise DocumentError("weekdays", "names a day twice.")
    equipment = a_list(data.get("equipment", []), "equipment", MOST_EXERCISES, _equipment)
    exercises = a_list(data.get("exercises", []), "exercises", MOST_EXERCISES, _exercise)
    blocks = data.get("blocks", [])
    if not isinstance(blocks, list):
        raise DocumentError("blocks", "must be a list.")
    return ProgramFile(
        name,
        a_text(data.get("note", ""), "note", NOTE),
        status,
        weekdays,
        _by_reference([(one.reference, one) for one in exercises], "exercises"),
        blocks,
        _by_reference([(one["id"], one) for one in equipment], "equipment"),
    )


def _by_reference(pairs: list[tuple[str, Any]], path: str) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for reference, one in pairs:
        if reference in found:
            raise DocumentError(path, f"names {reference} twice.")
        found[reference] = one
    return found


def _reference(value: Any, path: str) -> str:
    text = a_text(value, path, 84)
    if not REFERENCE.match(text):
        raise DocumentError(path, "must be a slug, or own/ and a slug.")
    return text


def _exercise(value: Any, path: str) -> FileExercise:
    data = an_object(value, path, {"id", "name", "definition"})
    reference = _reference(data.get("id"), f"{path}.id")
    name = a_text(data.get("name", ""), f"{path}.name", NAME)
    definition = data.get("definition")
    if definition is None:
        return FileExercise(reference, name)
    if not reference.startswith("own/"):
        raise DocumentError(f"{path}.definition", "belongs to a practice's own exercise (own/...) only.")
    return FileExercise(reference, name, read_own_exercise(definition, f"{path}.definition"))


def _equipment(value: Any, path: str) -> dict[str, Any]:
    data = read_own_equipment(value, path)
    reference = _reference(data["id"], f"{path}.id")
    if not reference.startswith("own/") or len(reference) > 54:
        raise DocumentError(f"{path}.id", "must be own/ and a slug of at most 50 characters.")
    return data


def _no_twice(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        names = [name for name, _value in pairs]
        raise ValueError(f"a name is given twice: {next(n for n in names if names.count(n) > 1)[:60]}")
    return found


def _no_constant(name: str) -> Any:
    raise ValueError(f"{name} is not a number")


def _refuse_odd_text(value: Any) -> None:
    """Refuse what no database keeps: the character NUL, and halves of characters."""
    stack = [value]
    while stack:
        one = stack.pop()
        if isinstance(one, dict):
            stack += [*one.keys(), *one.values()]
        elif isinstance(one, list):
            stack += one
        elif isinstance(one, str) and ("\x00" in one or any("\ud800" <= c <= "\udfff" for c in one)):
            raise FileError(_("The file holds a character that no text can have."))


# Read by tests against the published schema.
BOUNDS = {"name": NAME, "note": NOTE, "block": limits.NAME}
