"""Read plain values of a document's JSON, each refused with the path where it stands."""

import re
from collections.abc import Callable
from typing import Any, TypeVar

from programs.document import limits
from programs.document.errors import DocumentError
from programs.document.model import Range

T = TypeVar("T")
KEY = re.compile(r"^[A-Za-z0-9_-]+\Z")


def an_object(value: Any, path: str, known: set[str]) -> dict[str, Any]:
    if not isinstance(value, dict):
        raise DocumentError(path, "must be an object.")
    if unknown := sorted(set(value) - known):
        raise DocumentError(path, f"has a field that is not known: {unknown[0]}.")
    return value


def a_list(value: Any, path: str, most: int, read: Callable[[Any, str], T]) -> tuple[T, ...]:
    if not isinstance(value, list):
        raise DocumentError(path, "must be a list.")
    if len(value) > most:
        raise DocumentError(path, f"holds {len(value)}; {most} is the most.")
    return tuple(read(one, f"{path}[{place}]") for place, one in enumerate(value))


def a_key(data: dict[str, Any], path: str, taken: set[str]) -> str:
    key = a_text(data.get("key", ""), f"{path}.key", limits.KEY)
    if not KEY.match(key):
        raise DocumentError(f"{path}.key", "must be a short word of letters, digits, - and _.")
    if key in taken:
        raise DocumentError(f"{path}.key", f"is used twice: {key}.")
    taken.add(key)
    return key


def a_text(value: Any, path: str, most: int) -> str:
    if not isinstance(value, str):
        raise DocumentError(path, "must be text.")
    if len(value) > most:
        raise DocumentError(path, f"is longer than {most} characters.")
    return value


def an_integer(value: Any, path: str, bounds: Range) -> int:
    # bool is an int in Python: true would pass as 1.
    if not isinstance(value, int) or isinstance(value, bool):
        raise DocumentError(path, "must be a whole number.")
    if not bounds[0] <= value <= bounds[1]:
        raise DocumentError(path, f"must lie between {bounds[0]} and {bounds[1]}, not {value}.")
    return value


def a_range(value: Any, path: str, bounds: Range) -> Range:
    if isinstance(value, int):
        number = an_integer(value, path, bounds)
        return number, number
    if not isinstance(value, list) or len(value) != 2:
        raise DocumentError(path, "must be a number or a list of two numbers.")
    low, high = (an_integer(end, f"{path}[{place}]", bounds) for place, end in enumerate(value))
    if low > high:
        raise DocumentError(path, f"must run from the smaller to the larger number, not {low} to {high}.")
    return low, high


def a_flag(value: Any, path: str) -> bool:
    if not isinstance(value, bool):
        raise DocumentError(path, "must be true or false.")
    return value


def a_number(value: Any, path: str, bounds: Range) -> float:
    if not isinstance(value, int | float) or isinstance(value, bool):
        raise DocumentError(path, "must be a number.")
    if not bounds[0] <= value <= bounds[1]:
        raise DocumentError(path, f"must lie between {bounds[0]} and {bounds[1]}, not {value}.")
    return value
