"""A running copy before it is fitted again: what stands in it, and what its open days hold."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from programs.document import Document
from programs.document.adapt import Change
from programs.document.model import Day
from programs.fit.model import Choice, ClientFacts
from programs.services.limits import Limits


@dataclass(frozen=True, slots=True)
class Standing:
    """An adaptation that counts now, by its id; `dated`: made for some days only, and `limits` are then those of these
    days (None: the client's)."""

    pk: int
    change: Change
    params: Mapping[str, Any] = field(default_factory=dict)
    edited: bool = False
    dated: bool = False
    limits: Limits | None = None


@dataclass(frozen=True, slots=True)
class Copy:
    """`document` is the program as written, `days` the keys of the training days that are open. `decided`: the exercise
    that a decision gave, by the key of the slot in whose place it stands."""

    document: Document
    days: Collection[str]
    standing: Sequence[Standing]
    written_for: str
    decided: Mapping[str, int] = field(default_factory=dict)

    @property
    def given(self) -> dict[str, int]:
        """Return what decisions gave, also where it was exchanged since: what is fitted there instead of what is
        written."""
        exchanged = {
            key: one.change.exercise
            for one in self.standing
            if one.change.exercise and _in_place_of_decided(one)
            for key in one.change.slots
        }
        return exchanged | dict(self.decided)


def days_only(document: Document, days: Collection[str]) -> Document:
    """Return the document with these training days alone, by key."""
    return replace(
        document,
        blocks=tuple(
            replace(
                block,
                weeks=tuple(
                    replace(week, days=tuple(day for day in week.days if day.key in days)) for week in block.weeks
                ),
            )
            for block in document.blocks
        ),
    )


def with_exercises(document: Document, given: Mapping[str, int]) -> Document:
    """Return the document with other exercises in the slots with these keys."""
    if not given:
        return document

    def day(part: Day) -> Day:
        slots = (replace(one, exercise=given.get(one.key, one.exercise)) for one in part.slots)
        return replace(part, slots=tuple(slots))

    return replace(
        document,
        blocks=tuple(
            replace(
                block,
                weeks=tuple(replace(week, days=tuple(day(one) for one in week.days)) for week in block.weeks),
            )
            for block in document.blocks
        ),
    )


def _in_place_of_decided(one: Standing) -> bool:
    """Say whether it exchanges what a decision gave: it names its slots, and not for some days only."""
    return one.change.kind in ("swap", "leave-out") and bool(one.change.slots) and not one.dated


def family(one: Standing) -> str:
    """Return the id of the proposal that an adaptation came from."""
    change = one.change
    match change.kind:
        case "swap" | "leave-out":
            return f"{'decided' if _in_place_of_decided(one) else 'swap'}:{change.exercise}"
        case "one-side" | "start":
            return f"{change.kind}:{change.exercise}"
    return change.kind


def seeds(standing: Sequence[Standing], client: ClientFacts) -> dict[str, Choice]:
    """Return earlier choices as a coach's: what a client has got used to is not changed without need.

    Left out only stays left out where the coach wanted it; a number only while the status that it was for is theirs.
    """
    said: dict[str, Choice] = {}
    for one in standing:
        change = one.change
        match change.kind:
            case "swap" | "one-side":
                said[family(one)] = Choice(to=change.to)
            case "leave-out" if one.edited:
                said[family(one)] = Choice(to=0)
            case "scale" if one.edited and one.params.get("status") == client.status:
                said["scale"] = Choice(number=round(100 * change.factor))
            case "rir" if one.edited and one.params.get("status") == client.status:
                said["rir"] = Choice(number=change.rir)
    return said
