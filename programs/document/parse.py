"""Read `Program.document`, refusing what is not a program with the path of the trouble."""

from dataclasses import replace
from typing import Any

from programs.document import limits
from programs.document.errors import DocumentError
from programs.document.model import Block, Day, Document, Slot, Week
from programs.document.parse_ramp import read_ramp
from programs.document.parse_values import a_flag, a_key, a_list, a_number, a_range, a_text, an_integer, an_object

OF_RAMP = {"origin", "by_hand", "load_pct", "group"}
SLOT_FIELDS = {"key", "exercise", "pair", "sets", "reps", "rir", "rest_s", "tempo", "note", "weaker_first"} | OF_RAMP


def document_from_json(value: Any) -> Document:
    """Return the document; DocumentError when the shape, a bound or the uniqueness of keys is broken."""
    taken: set[str] = set()
    top = an_object(value, "", {"blocks"})
    return Document(a_list(top.get("blocks", []), "blocks", limits.BLOCKS, lambda v, p: _block(v, p, taken)))


def _block(value: Any, path: str, taken: set[str]) -> Block:
    data = an_object(value, path, {"key", "name", "weeks", "ramp"})
    block = Block(
        a_key(data, path, taken),
        a_text(data.get("name", ""), f"{path}.name", limits.NAME),
        a_list(data.get("weeks", []), f"{path}.weeks", limits.WEEKS, lambda v, p: _week(v, p, taken)),
    )
    if data.get("ramp") is None:
        return block
    return replace(block, ramp=read_ramp(data["ramp"], f"{path}.ramp", block, lambda v, p: _week(v, p, taken)))


def _week(value: Any, path: str, taken: set[str]) -> Week:
    data = an_object(value, path, {"key", "deload", "note", "days", "by_hand"})
    return Week(
        a_key(data, path, taken),
        a_flag(data.get("deload", False), f"{path}.deload"),
        a_text(data.get("note", ""), f"{path}.note", limits.NOTE),
        a_list(data.get("days", []), f"{path}.days", limits.DAYS, lambda v, p: _day(v, p, taken)),
        a_flag(data.get("by_hand", False), f"{path}.by_hand"),
    )


def _day(value: Any, path: str, taken: set[str]) -> Day:
    data = an_object(value, path, {"key", "name", "slots", "origin"})
    return Day(
        a_key(data, path, taken),
        a_text(data.get("name", ""), f"{path}.name", limits.NAME),
        a_list(data.get("slots", []), f"{path}.slots", limits.SLOTS, lambda v, p: _slot(v, p, taken)),
        a_text(data.get("origin", ""), f"{path}.origin", limits.KEY),
    )


def _slot(value: Any, path: str, taken: set[str]) -> Slot:
    data = an_object(value, path, SLOT_FIELDS)
    pair = a_text(data.get("pair", ""), f"{path}.pair", 1)
    if pair and not ("A" <= pair <= "Z"):
        raise DocumentError(f"{path}.pair", "must be one letter from A to Z, or empty.")
    return Slot(
        a_key(data, path, taken),
        an_integer(data.get("exercise"), f"{path}.exercise", (1, 2**63 - 1)),
        pair,
        a_range(data.get("sets", 3), f"{path}.sets", limits.SETS),
        a_range(data.get("reps", [8, 12]), f"{path}.reps", limits.REPS),
        a_range(data.get("rir", [1, 2]), f"{path}.rir", limits.RIR),
        an_integer(data.get("rest_s", 120), f"{path}.rest_s", limits.REST_S),
        a_text(data.get("tempo", ""), f"{path}.tempo", limits.TEMPO),
        a_text(data.get("note", ""), f"{path}.note", limits.NOTE),
        a_flag(data.get("weaker_first", False), f"{path}.weaker_first"),
        a_text(data.get("origin", ""), f"{path}.origin", limits.KEY),
        a_flag(data.get("by_hand", False), f"{path}.by_hand"),
        a_number(data.get("load_pct", 0), f"{path}.load_pct", limits.LOAD_PCT),
        a_text(data.get("group", ""), f"{path}.group", limits.SLUG),
    )
