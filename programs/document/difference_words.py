"""Differences in words."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any, NamedTuple

from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop, ngettext

from programs.document.difference import Change
from programs.document.ranges import show_range

Names = Mapping[int, str]


class Sentence(NamedTuple):
    """What changed, and (for what is in a week) on which day and in which weeks."""

    text: str
    where: str


def said(change: Change, names: Names) -> Sentence:
    """Say one change; `names` are the exercises' names by id."""
    return Sentence(SENTENCES[change.code](change, names), where(change))


def where(change: Change) -> str:
    """Return the day and the weeks of a change."""
    if change.code in OF_BLOCK:
        return ""
    day = change.day if not change.code.startswith("day-") else ""
    return ", ".join(part for part in (day, weeks_words(change.weeks, change.every)) if part)


def weeks_words(numbers: Iterable[int], every: bool = False) -> str:
    """Return `week 3`, `weeks 1–3, 5` or `every week`."""
    numbers = sorted(numbers)
    if every:
        return _("every week")
    if not numbers:
        return ""
    return ngettext("week %(weeks)s", "weeks %(weeks)s", len(numbers)) % {"weeks": runs(numbers)}


def runs(numbers: Iterable[int]) -> str:
    """Return numbers with neighbours put together: `1–3, 5`."""
    spans: list[list[int]] = []
    for number in numbers:
        if spans and spans[-1][1] == number - 1:
            spans[-1][1] = number
        else:
            spans.append([number, number])
    return ", ".join(show_range((first, last)) for first, last in spans)


def exercises_in(changes: Iterable[Change]) -> set[int]:
    """Return the ids of all exercises that the changes speak of."""
    found: set[int] = set()
    for change in changes:
        found.update(change.params.get("exercises", ()))
        if change.code == "slot-swapped":
            found.add(change.params["before"])
        if "exercise" in change.params:
            found.add(change.params["exercise"])
    return found


def field_words(name: str, before: Any, after: Any) -> str:
    """Say the change of one field of a prescription."""
    if name in ("sets", "reps", "rir"):
        ends = {"before": show_range(tuple(before)), "after": show_range(tuple(after))}
        return {
            "sets": _("%(before)s → %(after)s sets"),
            "reps": _("%(before)s → %(after)s repetitions"),
            "rir": _("RIR %(before)s → %(after)s"),
        }[name] % ends
    if name == "rest_s":
        return _("rest %(before)s → %(after)s s") % {"before": before, "after": after}
    if name == "tempo":
        return _("tempo %(before)s → %(after)s") % {"before": before or _("free"), "after": after or _("free")}
    if name == "load_pct":
        ends = {"before": _percent(before), "after": _percent(after)}
        return _("load %(before)s → %(after)s %% of the first week’s") % ends
    if name == "weaker_first":
        return _("weaker side first") if after else _("either side first")
    if name == "note":
        return _("note “%(note)s”") % {"note": after} if after else _("note taken out")
    return _("other settings changed")


def _percent(value: float) -> str:
    return f"{value or 100:g}"


def _name(names: Names, exercise: int) -> str:
    return names.get(exercise, _("an exercise"))


def _of_exercise(sentence: str) -> Callable[[Change, Names], str]:
    return lambda change, names: _(sentence) % {"exercise": _name(names, change.params["exercise"]), "day": change.day}


def _plain(sentence: str) -> Callable[[Change, Names], str]:
    return lambda change, names: (
        _(sentence)
        % {
            "block": change.block,
            "day": change.day,
            "before": change.params.get("before", ""),
        }
    )


def _added(change: Change, names: Names) -> str:
    slot = change.params["slot"]
    line = "{} × {} @ {} RIR".format(*(show_range(tuple(slot[part])) for part in ("sets", "reps", "rir")))
    return _("%(exercise)s added: %(line)s") % {"exercise": _name(names, change.params["exercise"]), "line": line}


def _changed(change: Change, names: Names) -> str:
    parts: list[str] = []
    for name, (before, after) in change.params["fields"].items():
        if (words := field_words(name, before, after)) not in parts:
            parts.append(words)
    return _("%(exercise)s: %(changes)s") % {
        "exercise": _name(names, change.params["exercise"]),
        "changes": ", ".join(parts),
    }


def _day(sentence: str) -> Callable[[Change, Names], str]:
    def say(change: Change, names: Names) -> str:
        held = ", ".join(_name(names, one) for one in change.params["exercises"]) or _("no exercise")
        return _(sentence) % {"day": change.day, "exercises": held}

    return say


def _week_note(change: Change, names: Names) -> str:
    note = change.params["after"]
    return _("Note to the week: “%(note)s”") % {"note": note} if note else _("Note to the week taken out")


def _swapped(change: Change, names: Names) -> str:
    return _("%(before)s → %(exercise)s") % {
        "before": _name(names, change.params["before"]),
        "exercise": _name(names, change.params["exercise"]),
    }


OF_BLOCK = {"block-added", "block-removed", "block-renamed", "block-moved", "ramp-on", "ramp-off", "ramp-changed"}
SENTENCES: dict[str, Callable[[Change, Names], str]] = {
    "block-added": lambda change, names: (
        ngettext("Block added, %(count)s week", "Block added, %(count)s weeks", change.params["count"]) % change.params
    ),
    "block-removed": lambda change, names: (
        ngettext("Block removed, %(count)s week", "Block removed, %(count)s weeks", change.params["count"])
        % change.params
    ),
    "block-renamed": lambda change, names: _("Renamed, before: %(before)s") % change.params,
    "block-moved": lambda change, names: _("Moved among the blocks"),
    "ramp-on": lambda change, names: _("Its weeks follow a ramp"),
    "ramp-off": lambda change, names: _("Its weeks no longer follow a ramp"),
    "ramp-changed": lambda change, names: _("Its ramp changed"),
    "weeks-added": lambda change, names: ngettext("Week added", "Weeks added", len(change.weeks)),
    "weeks-removed": lambda change, names: ngettext("Week removed", "Weeks removed", len(change.weeks)),
    "weeks-moved": lambda change, names: _("Moved to another place"),
    "deload-on": lambda change, names: _("Marked as deload"),
    "deload-off": lambda change, names: _("No longer a deload"),
    "week-note": _week_note,
    "week-other": lambda change, names: _("Other settings of the week changed"),
    "day-added": _day(gettext_noop("%(day)s added: %(exercises)s")),
    "day-removed": _day(gettext_noop("%(day)s removed: %(exercises)s")),
    "day-renamed": _plain(gettext_noop("%(before)s is now called %(day)s")),
    "day-moved": _plain(gettext_noop("%(day)s moved within the week")),
    "slot-added": _added,
    "slot-removed": _of_exercise(gettext_noop("%(exercise)s removed")),
    "slot-moved": _of_exercise(gettext_noop("%(exercise)s moved within the day")),
    "slot-to-day": lambda change, names: (
        _("%(exercise)s moved here from %(before)s")
        % {"exercise": _name(names, change.params["exercise"]), "before": change.params["before"]}
    ),
    "slot-swapped": _swapped,
    "slot-changed": _changed,
    "slot-paired": _of_exercise(gettext_noop("%(exercise)s is done in a pair")),
    "slot-alone": _of_exercise(gettext_noop("%(exercise)s is done on its own")),
}
