"""What the session page shows of each exercise: the next set as prescribed, what is done, and the words for it."""

from dataclasses import dataclass
from typing import Any

from logbook.next_set import in_unit, is_done, live, next_entry, next_step, suggestion
from logbook.reads.sheet import Sheet
from logbook.sides import one_sided, side_difference
from logbook.warm_ups import warm_up_sets
from logbook.wording import load_words, reps_words, side_words
from periodization.units import to_kg


@dataclass(frozen=True, slots=True)
class Panel:
    """One exercise on the page. `ask` is the set as prescribed; `can_log` says that one tap is enough."""

    entry: dict[str, Any]
    step: dict[str, Any]
    ask: dict[str, Any]
    done: int
    is_done: bool
    one_sided: bool
    asks_body_mass: bool
    pain_score: int | None
    next_key: str | None
    unit: str
    warm_ups: list[dict[str, Any]]

    @property
    def key(self) -> str:
        return self.entry["key"]

    @property
    def can_log(self) -> bool:
        return self.ask["load"] is not None and self.ask["reps"] is not None

    @property
    def wanted(self) -> int | None:
        return self.entry["prescription"]["sets"] if self.entry["prescription"] else None

    @property
    def skipped(self) -> bool:
        return bool((self.entry.get("skip") or {}).get("skipped"))

    @property
    def side(self) -> str:
        return side_words(self.step["side"])

    @property
    def difference(self) -> str:
        """By how much one side was less than the other so far, in words."""
        return side_difference(live(self.entry), self.entry["exercise"], self.unit) if self.one_sided else ""

    @property
    def last_match(self) -> list[dict[str, Any]]:
        """Last time's sets of the number that comes next (both sides), else its last ones."""
        rows = (self.entry["last"] or {}).get("sets", [])
        upto = [row["number"] for row in rows if row["number"] <= self.step["number"]]
        number = max(upto) if upto else None
        return [row for row in rows if row["number"] == number]

    @property
    def warm_up_words(self) -> list[str]:
        """Each warm-up set as it is typed."""
        loads = (
            load_words(in_unit(one["load_kg"], self.unit), self.unit, self.entry["exercise"]) for one in self.warm_ups
        )
        return [f"{load} × {one['reps']}" for load, one in zip(loads, self.warm_ups, strict=True)]

    @property
    def target_words(self) -> str:
        """The target's own load and repetitions, whatever was logged since; empty where it names no load."""
        target = self.entry["target"]
        if not target or target["load_kg"] is None or target["reps"] is None or target["action"] == "stop":
            return ""
        exercise = self.entry["exercise"]
        load = load_words(in_unit(target["load_kg"], self.unit), self.unit, exercise)
        reps = reps_words(target["reps"], exercise)
        return f"{load} × {reps}" if load else reps


def panels_of(sheet: Sheet) -> list[Panel]:
    """Return the panels in the plan's order, then what was added."""
    return _panels(sheet, sheet.data["exercises"])


def swap_panels_of(sheet: Sheet) -> list[Panel]:
    """Return the panels of the substitutes that may be chosen."""
    return _panels(sheet, sheet.data["swaps"])


def _panels(sheet: Sheet, entries: list[dict[str, Any]]) -> list[Panel]:
    unit, pain = sheet.data["unit"], sheet.data["pain"]
    return [
        Panel(
            entry=entry,
            step=next_step(entry),
            ask=suggestion(entry, unit),
            done=len({row["number"] for row in live(entry)}),
            is_done=is_done(entry),
            one_sided=one_sided(entry),
            asks_body_mass=sheet.data["body_mass"] is None and entry["exercise"]["load_kind"] != "external",
            pain_score=pain.get(str(entry["exercise"]["id"])),
            next_key=next_entry(entries, entry["key"]),
            unit=unit,
            warm_ups=_warm_ups(sheet, entry),
        )
        for entry in entries
    ]


def _warm_ups(sheet: Sheet, entry: dict[str, Any]) -> list[dict[str, Any]]:
    """Those that come next; none once a working set is logged."""
    if live(entry):
        return []
    ask = suggestion(entry, sheet.data["unit"])
    kg = None if ask["load"] is None else to_kg(ask["load"], ask["unit"])
    steps = warm_up_sets(entry, sheet.data["ladders"][entry["ladder"]]["settings"], kg)
    return steps[len(live(entry, warm_up=True)) :]


def current_of(panels: list[Panel], asked: str | None) -> Panel | None:
    """Return the panel asked for; else where the last set was logged, or what comes after it; else the first."""
    by_key = {panel.key: panel for panel in panels}
    if asked in by_key:
        return by_key[asked]
    logged = [(row["performed_at"], panel) for panel in panels for row in panel.entry["sets"] if not row["deleted"]]
    if logged:
        latest = max(logged, key=lambda pair: pair[0])[1]
        return by_key.get(latest.next_key or latest.key)
    return next((panel for panel in panels if not panel.is_done), panels[0] if panels else None)
