"""A version of a program as one client gets it, looked up by the keys of its training days."""

from collections.abc import Mapping
from functools import cached_property
from typing import Any

from programs.document import Day, Document, Week
from programs.services.dated_rows import slot_rows
from programs.services.revision_slots import Fields, content_of


class Written:
    """`raw` is the document as the coach wrote it, `document` the same with the client's adaptations.

    `mapped` leads from its keys to those of the version that is to come (to themselves in that version).
    """

    def __init__(
        self,
        raw: Document,
        document: Document,
        mapped: Mapping[str, str],
        start_loads: Mapping[str, float] | None = None,
    ) -> None:
        self.raw, self.document, self.mapped = raw, document, mapped
        self._start_loads = start_loads or {}
        self._rows: dict[tuple[str, bool], list[Fields]] = {}

    @cached_property
    def weeks(self) -> list[Week]:
        return [week for block in self.document.blocks for week in block.weeks]

    @cached_property
    def days(self) -> dict[str, Day]:
        return {day.key: day for week in self.weeks for day in week.days}

    @cached_property
    def _raw_days(self) -> dict[str, Day]:
        return {day.key: day for block in self.raw.blocks for week in block.weeks for day in week.days}

    @cached_property
    def week_of(self) -> dict[str, Week]:
        """The week of each training day, by the day's key."""
        return {day.key: week for week in self.weeks for day in week.days}

    @cached_property
    def numbers(self) -> dict[str, dict[str, Any]]:
        """What a planned session says of its place, by the day's key."""
        return {
            day.key: {
                "day_name": day.name,
                "block_name": block.name,
                "block_number": b,
                "week_number": w,
                "day_number": d,
                "week_key": week.key,
                "day_key": day.key,
                "is_deload": week.deload,
            }
            for b, block in enumerate(self.document.blocks, 1)
            for w, week in enumerate(block.weeks, 1)
            for d, day in enumerate(week.days, 1)
        }

    def to(self, key: str) -> str:
        """Return the key that a part has in the version to come; its own when it is gone."""
        return self.mapped.get(key, key)

    def rows(self, day: str, raw: bool = False) -> list[Fields]:
        """Return the fields of the rows of a training day; none for one that is not there. Worked out once a day."""
        if (day, raw) not in self._rows:
            part = (self._raw_days if raw else self.days).get(day)
            self._rows[day, raw] = slot_rows(part.slots, self._start_loads) if part else []
        return self._rows[day, raw]


def contents(written: Written, day: str, raw: bool = False) -> dict[str, Fields]:
    """Return what the rows of a day say, by the slot's key in the version to come."""
    return {written.to(one["slot_key"]): content_of(one) for one in written.rows(day, raw)}
