"""Read the ramp of a block."""

from collections.abc import Callable
from typing import Any

from programs.document import limits
from programs.document.errors import DocumentError
from programs.document.model import Block, Ramp, RampRule, Range, Week
from programs.document.parse_values import a_flag, a_number, an_integer, an_object

RULE_FIELDS = {"start", "peak", "rir", "load_pct"}


def read_ramp(value: Any, path: str, block: Block, read_week: Callable[[Any, str], Week]) -> Ramp:
    """Return the ramp of `block`; DocumentError when it is none, or speaks of what its base week does not hold."""
    data = an_object(value, path, {"base", "deload", "every", "groups", "slots"})
    base = read_week(data.get("base"), f"{path}.base")
    deload = a_flag(data.get("deload", True), f"{path}.deload")
    if len(block.weeks) < (2 if deload else 1):
        raise DocumentError(path, "needs at least one week, and one more for its deload.")
    ramp = Ramp(
        base,
        deload,
        _rule(data.get("every", {}), f"{path}.every", limits.SETS),
        _rules(data.get("groups", {}), f"{path}.groups", limits.GROUP_SETS, limits.GROUPS),
        _rules(data.get("slots", {}), f"{path}.slots", limits.SETS, limits.DAYS * limits.SLOTS),
    )
    if ramp.every.start is not None or ramp.every.peak is not None:
        raise DocumentError(f"{path}.every", "cannot name sets: they belong to a group or a slot.")
    known = {slot.key for day in base.days for slot in day.slots}
    if strange := [key for key, _rule_ in ramp.slots if key not in known]:
        raise DocumentError(f"{path}.slots", f"speaks of a slot that the base week does not hold: {strange[0]}.")
    return ramp


def _rules(value: Any, path: str, sets: Range, most: int) -> tuple[tuple[str, RampRule], ...]:
    if not isinstance(value, dict):
        raise DocumentError(path, "must be an object.")
    if len(value) > most:
        raise DocumentError(path, f"holds {len(value)}; {most} is the most.")
    if long := [key for key in value if not 0 < len(key) <= limits.SLUG]:
        raise DocumentError(path, f"has a name that is empty or too long: {long[0][:60]}.")
    return tuple((key, _rule(value[key], f"{path}.{key}", sets)) for key in sorted(value))


def _rule(value: Any, path: str, sets: Range) -> RampRule:
    data = an_object(value, path, RULE_FIELDS)
    start, peak = (_sets(data.get(name), f"{path}.{name}", sets) for name in ("start", "peak"))
    if start is not None and peak is None:
        raise DocumentError(f"{path}.peak", "must be given where a start is.")
    if start is not None and peak is not None and peak < start:
        raise DocumentError(f"{path}.peak", f"must not lie below the start: {peak} after {start}.")
    return RampRule(
        start,
        peak,
        _rir(data.get("rir"), f"{path}.rir"),
        a_number(data.get("load_pct", 0), f"{path}.load_pct", limits.LOAD_PCT_A_WEEK),
    )


def _sets(value: Any, path: str, bounds: Range) -> int | None:
    return None if value is None else an_integer(value, path, bounds)


def _rir(value: Any, path: str) -> Range | None:
    if value is None:
        return None
    if not isinstance(value, list) or len(value) != 2:
        raise DocumentError(path, "must be a list of two numbers.")
    first, last = (an_integer(end, f"{path}[{place}]", limits.RIR) for place, end in enumerate(value))
    if last > first:
        raise DocumentError(path, f"must not rise inside a block: {first} to {last}.")
    return first, last
