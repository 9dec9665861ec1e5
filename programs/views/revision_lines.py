"""Changes as lines of a page: the same change of several sessions is one line with their dates."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from programs.document import Slot
from programs.document.difference import Change
from programs.document.difference_week import slot_changes
from programs.document.difference_words import Names, Sentence, exercises_in, said
from programs.models import Exercise
from programs.services.revision_slots import Fields


@dataclass(frozen=True, slots=True)
class BlockLines:
    name: str
    lines: Sequence[Sentence]


@dataclass(frozen=True, slots=True)
class Line:
    """One change, the training days, and when: `6 sessions, 3 Mar – 14 Apr`."""

    text: str
    days: str
    dates: str


@dataclass(frozen=True, slots=True)
class SessionChange:
    """What happens (or happened) to one session, whoever worked it out. `kind`: made, cancelled or changed."""

    kind: str
    date: date
    day: str
    date_before: date | None = None
    day_before: str = ""
    deload: bool | None = None  # None: the mark does not change
    slots: Sequence[tuple[Fields | None, Fields | None]] = field(default_factory=list)


def blocks_of(changes: Iterable[Change]) -> list[BlockLines]:
    """Return the differences of two documents by block, said with the exercises' names (one query)."""
    many = list(changes)
    names = names_of(exercises_in(many))
    blocks: dict[str, list[Sentence]] = {}
    for change in many:
        blocks.setdefault(change.block, []).append(said(change, names))
    return [BlockLines(name, lines) for name, lines in blocks.items()]


def names_of(ids: Iterable[int]) -> dict[int, str]:
    return dict(Exercise.objects.filter(pk__in=set(ids)).values_list("pk", "name"))


def exercise_ids(changes: Iterable[SessionChange]) -> set[int]:
    return {side["exercise_id"] for one in changes for pair in one.slots for side in pair if side}


def lines_of(changes: Iterable[SessionChange], names: Names) -> list[Line]:
    """Return one line for each change that is the same in several sessions, in the order of their first dates."""
    together: dict[str, list[SessionChange]] = {}
    for one in sorted(changes, key=lambda change: change.date):
        for text in texts_of(one, names):
            together.setdefault(text, []).append(one)
    return [
        Line(text, ", ".join(dict.fromkeys(one.day for one in some)), dates_words([one.date for one in some]))
        for text, some in together.items()
    ]


def texts_of(one: SessionChange, names: Names) -> list[str]:
    """Say everything that happens to one session."""
    if one.kind == "made":
        held = [names.get(after["exercise_id"], "") for _before, after in one.slots if after]
        return [_("New training day: %(exercises)s") % {"exercises": ", ".join(held)}]
    if one.kind == "cancelled":
        return [_("Training day taken out")]
    texts = []
    if one.date_before and one.date_before != one.date:
        texts.append(_moved((one.date - one.date_before).days))
    if one.day_before and one.day_before != one.day:
        texts.append(_("Is called %(name)s now, before: %(before)s") % {"name": one.day, "before": one.day_before})
    if one.deload is not None:
        texts.append(_("Marked as deload") if one.deload else _("No longer a deload"))
    for before, after in one.slots:
        texts.extend(text for text in slot_texts(before, after, names) if text not in texts)
    if not texts and any(_placed(before, after) for before, after in one.slots):
        texts.append(_("The exercises come in another order or other pairs"))
    return texts


def _placed(before: Fields | None, after: Fields | None) -> bool:
    return bool(before and after) and any(before[name] != after[name] for name in ("position", "pair"))


def slot_texts(before: Fields | None, after: Fields | None, names: Names) -> list[str]:
    """Say what happens to one exercise of a session."""
    old, new = slot_of(before), slot_of(after)
    if old is not None and new is not None:
        return [said(Change(one.code, one.params), names).text for one in slot_changes(old, new)]
    if new is not None:
        params = {"exercise": new.exercise, "slot": {"sets": new.sets, "reps": new.reps, "rir": new.rir}}
        return [said(Change("slot-added", params), names).text]
    return [said(Change("slot-removed", {"exercise": old.exercise}), names).text] if old is not None else []


def slot_of(fields: Mapping[str, Any] | None) -> Slot | None:
    """Return a row of a plan as a slot of a document."""
    if fields is None:
        return None
    low = fields["sets_min"] or fields["sets"]
    ranges = {"reps": (fields["reps_min"], fields["reps_max"]), "rir": (fields["rir_min"], fields["rir_max"])}
    names = ("pair", "rest_s", "tempo", "note", "weaker_first", "load_pct")
    plain = {name: fields[name] for name in names if name in fields}
    return Slot(fields["slot_key"] or "x", fields["exercise_id"], sets=(low, fields["sets"]), **ranges, **plain)


def dates_words(days: Sequence[date]) -> str:
    """Return `Mon 3 Mar`, or how many sessions and from when to when."""
    first, last = min(days), max(days)
    if len(days) == 1:
        return date_format(first, _("D j M"))
    return ngettext(
        "%(count)s session, %(first)s – %(last)s", "%(count)s sessions, %(first)s – %(last)s", len(days)
    ) % {
        "count": len(days),
        "first": date_format(first, _("j M")),
        "last": date_format(last, _("j M")),
    }


def _moved(days: int) -> str:
    if days > 0:
        return ngettext("Moves %(days)s day later", "Moves %(days)s days later", days) % {"days": days}
    return ngettext("Moves %(days)s day earlier", "Moves %(days)s days earlier", -days) % {"days": -days}
