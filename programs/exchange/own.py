"""A practice's own exercise or equipment in a file, in the words of the library's files (see programs/library)."""

import json
from collections.abc import Callable, Mapping
from typing import Any

from programs.document.errors import DocumentError
from programs.document.parse_values import a_flag, a_list, a_number, a_text, an_integer, an_object

GRADES = ("activation", "long_length", "loadability", "near_failure")
CHOICES: Mapping[str, tuple[str, ...]] = {
    "laterality": ("both", "single", "alternating"),
    "load_kind": ("external", "body_plus", "assisted"),
    "rep_unit": ("reps", "seconds", "steps"),
}
KINDS = ("plates", "dumbbells", "stack", "body", "assisted", "none")
SECONDS: Mapping[str, tuple[int, int]] = {"rest_s": (0, 900), "rep_s": (0, 30), "setup_s": (0, 900)}
MOST_LINES = 40
LINE = 500
SET_UP = 4000
SLUG = 84
FIELDS = {"equipment", "actions", "limits", "limits_judged", "body_share", "compound", "set_up", "cues", "cautions"}
FIELDS |= {"credits", "long_heads", "long_by", "grades", *CHOICES, *SECONDS}


def read_own_exercise(value: Any, path: str) -> dict[str, Any]:
    """Return the definition with every field; DocumentError for a shape or a bound that is broken. Whether its names
    mean anything, and whether its anatomy holds, is for whoever knows the library."""
    data = an_object(value, path, FIELDS)
    if missing := sorted(FIELDS - set(data)):
        raise DocumentError(path, f"lacks {missing[0]}.")
    return {
        "equipment": a_text(data["equipment"], f"{path}.equipment", SLUG),
        "actions": _slugs(data["actions"], f"{path}.actions"),
        "limits": _slugs(data["limits"], f"{path}.limits"),
        "limits_judged": a_flag(data["limits_judged"], f"{path}.limits_judged"),
        **{name: _one_of(data[name], f"{path}.{name}", allowed) for name, allowed in CHOICES.items()},
        "body_share": a_number(data["body_share"], f"{path}.body_share", (0, 1)),
        "compound": a_flag(data["compound"], f"{path}.compound"),
        "set_up": a_text(data["set_up"], f"{path}.set_up", SET_UP),
        "cues": _lines(data["cues"], f"{path}.cues"),
        "cautions": _lines(data["cautions"], f"{path}.cautions"),
        **{name: an_integer(data[name], f"{path}.{name}", bounds) for name, bounds in SECONDS.items()},
        "credits": _named(data["credits"], f"{path}.credits", lambda v, p: a_number(v, p, (0, 1))),
        "long_heads": _slugs(data["long_heads"], f"{path}.long_heads"),
        "long_by": _named(data["long_by"], f"{path}.long_by", lambda v, p: a_text(v, p, SLUG)),
        "grades": _grades(data["grades"], f"{path}.grades"),
    }


def read_own_equipment(value: Any, path: str) -> dict[str, Any]:
    """Return own equipment; its loads are checked by whoever reads ladders."""
    data = an_object(value, path, {"id", "name", "kind", "ladder", "ladder_lb"})
    for name in ("ladder", "ladder_lb"):
        loads = data.get(name)
        if not isinstance(loads, dict) and not (name == "ladder_lb" and loads is None):
            raise DocumentError(f"{path}.{name}", "must be an object.")
        if len(json.dumps(loads)) > SET_UP * 5:
            raise DocumentError(f"{path}.{name}", "is longer than any row of weights.")
    name = a_text(data.get("name"), f"{path}.name", 80)
    if not name.strip():
        raise DocumentError(f"{path}.name", "is empty.")
    return {
        "id": data.get("id"),
        "name": name,
        "kind": _one_of(data.get("kind"), f"{path}.kind", KINDS),
        "ladder": data["ladder"],
        "ladder_lb": data.get("ladder_lb"),
    }


def _slugs(value: Any, path: str) -> list[str]:
    return list(a_list(value, path, MOST_LINES, lambda v, p: a_text(v, p, SLUG)))


def _lines(value: Any, path: str) -> list[str]:
    return list(a_list(value, path, MOST_LINES, lambda v, p: a_text(v, p, LINE)))


def _named(value: Any, path: str, read: Callable[[Any, str], Any]) -> dict[str, Any]:
    data = an_object(value, path, set(value) if isinstance(value, dict) else set())
    if len(data) > MOST_LINES:
        raise DocumentError(path, f"holds {len(data)}; {MOST_LINES} is the most.")
    return {a_text(name, path, SLUG): read(one, f"{path}.{name}") for name, one in data.items()}


def _grades(value: Any, path: str) -> dict[str, list[Any]]:
    data = an_object(value, path, set(GRADES))
    grades = {}
    for name in GRADES:
        pair = data.get(name)
        if not isinstance(pair, list) or len(pair) != 2:
            raise DocumentError(f"{path}.{name}", "must be a list of the grade (1 to 5) and its reason.")
        grades[name] = [an_integer(pair[0], f"{path}.{name}[0]", (1, 5)), a_text(pair[1], f"{path}.{name}[1]", 300)]
    return grades


def _one_of(value: Any, path: str, allowed: tuple[str, ...]) -> str:
    if value not in allowed:
        raise DocumentError(path, f"must be one of {', '.join(allowed)}.")
    return value
