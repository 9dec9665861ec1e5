"""Read `Program.document`, refusing what is not a program with the path of the trouble."""

import re
from collections.abc import Callable
from typing import Any, TypeVar

from programs.document import limits
from programs.document.errors import DocumentError
from programs.document.model import Block, Day, Document, Range, Slot, Week

T = TypeVar("T")
KEY = re.compile(r"^[A-Za-z0-9_-]+\Z")


def document_from_json(value: Any) -> Document:
    """Return the document; DocumentError when the shape, a bound or the uniqueness of keys is broken."""
    taken: set[str] = set()
    top = _object(value, "", {"blocks"})
    return Document(_several(top.get("blocks", []), "blocks", limits.BLOCKS, lambda v, p: _block(v, p, taken)))


def _block(value: Any, path: str, taken: set[str]) -> Block:
    data = _object(value, path, {"key", "name", "weeks"})
    return Block(
        _key(data, path, taken),
        _text(data.get("name", ""), f"{path}.name", limits.NAME),
        _several(data.get("weeks", []), f"{path}.weeks", limits.WEEKS, lambda v, p: _week(v, p, taken)),
    )


def _week(value: Any, path: str, taken: set[str]) -> Week:
    data = _object(value, path, {"key", "deload", "note", "days"})
    deload = data.get("deload", False)
    if not isinstance(deload, bool):
        raise DocumentError(f"{path}.deload", "must be true or false.")
    return Week(
        _key(data, path, taken),
        deload,
        _text(data.get("note", ""), f"{path}.note", limits.NOTE),
        _several(data.get("days", []), f"{path}.days", limits.DAYS, lambda v, p: _day(v, p, taken)),
    )


def _day(value: Any, path: str, taken: set[str]) -> Day:
    data = _object(value, path, {"key", "name", "slots"})
    return Day(
        _key(data, path, taken),
        _text(data.get("name", ""), f"{path}.name", limits.NAME),
        _several(data.get("slots", []), f"{path}.slots", limits.SLOTS, lambda v, p: _slot(v, p, taken)),
    )


def _slot(value: Any, path: str, taken: set[str]) -> Slot:
    known = {"key", "exercise", "pair", "sets", "reps", "rir", "rest_s", "tempo", "note"}
    data = _object(value, path, known)
    pair = _text(data.get("pair", ""), f"{path}.pair", 1)
    if pair and not ("A" <= pair <= "Z"):
        raise DocumentError(f"{path}.pair", "must be one letter from A to Z, or empty.")
    return Slot(
        _key(data, path, taken),
        _integer(data.get("exercise"), f"{path}.exercise", (1, 2**63 - 1)),
        pair,
        _range(data.get("sets", 3), f"{path}.sets", limits.SETS),
        _range(data.get("reps", [8, 12]), f"{path}.reps", limits.REPS),
        _range(data.get("rir", [1, 2]), f"{path}.rir", limits.RIR),
        _integer(data.get("rest_s", 120), f"{path}.rest_s", limits.REST_S),
        _text(data.get("tempo", ""), f"{path}.tempo", limits.TEMPO),
        _text(data.get("note", ""), f"{path}.note", limits.NOTE),
    )


def _object(value: Any, path: str, known: set[str]) -> dict[str, Any]:
    if not isinstance(value, dict):
        raise DocumentError(path, "must be an object.")
    if unknown := sorted(set(value) - known):
        raise DocumentError(path, f"has a field that is not known: {unknown[0]}.")
    return value


def _several(value: Any, path: str, most: int, read: Callable[[Any, str], T]) -> tuple[T, ...]:
    if not isinstance(value, list):
        raise DocumentError(path, "must be a list.")
    if len(value) > most:
        raise DocumentError(path, f"holds {len(value)}; {most} is the most.")
    return tuple(read(one, f"{path}[{place}]") for place, one in enumerate(value))


def _key(data: dict[str, Any], path: str, taken: set[str]) -> str:
    key = _text(data.get("key", ""), f"{path}.key", 24)
    if not KEY.match(key):
        raise DocumentError(f"{path}.key", "must be a short word of letters, digits, - and _.")
    if key in taken:
        raise DocumentError(f"{path}.key", f"is used twice: {key}.")
    taken.add(key)
    return key


def _text(value: Any, path: str, most: int) -> str:
    if not isinstance(value, str):
        raise DocumentError(path, "must be text.")
    if len(value) > most:
        raise DocumentError(path, f"is longer than {most} characters.")
    return value


def _integer(value: Any, path: str, bounds: Range) -> int:
    # bool is an int in Python: true would pass as 1.
    if not isinstance(value, int) or isinstance(value, bool):
        raise DocumentError(path, "must be a whole number.")
    if not bounds[0] <= value <= bounds[1]:
        raise DocumentError(path, f"must lie between {bounds[0]} and {bounds[1]}, not {value}.")
    return value


def _range(value: Any, path: str, bounds: Range) -> Range:
    if isinstance(value, int):
        number = _integer(value, path, bounds)
        return number, number
    if not isinstance(value, list) or len(value) != 2:
        raise DocumentError(path, "must be a number or a list of two numbers.")
    low, high = (_integer(end, f"{path}[{place}]", bounds) for place, end in enumerate(value))
    if low > high:
        raise DocumentError(path, f"must run from the smaller to the larger number, not {low} to {high}.")
    return low, high
