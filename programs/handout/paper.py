"""Lay the weeks out: weeks that say the same are printed once, and each exercise gets the number of its guide."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from django.utils.formats import number_format
from django.utils.safestring import mark_safe
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from programs.document import Day, Slot, Week, labels
from programs.document.ranges import show_range
from programs.handout.guides import Facts
from programs.handout.source import NumberedWeek, Source
from programs.templatetags.loads import load_words


@dataclass(frozen=True, slots=True)
class Line:
    """One exercise of a training day. `guide` is its number in the second part, 0 where that part is not wanted."""

    label: str
    name: str
    guide: int
    sets: str
    reps: str
    rir: str
    rest: str
    tempo: str
    note: str
    load: str
    boxes: range


@dataclass(frozen=True, slots=True)
class PaperDay:
    name: str
    date: dt.date | None
    lines: Sequence[Line]


@dataclass(frozen=True, slots=True)
class PaperWeek:
    """`same_as` names the weeks before that say the same; then there are no days here."""

    title: str
    deload: bool
    note: str
    days: Sequence[PaperDay]
    same_as: str = ""


@dataclass(frozen=True, slots=True)
class PaperBlock:
    name: str
    weeks: Sequence[PaperWeek]


def lay_out(
    source: Source, weeks: Sequence[NumberedWeek], facts: Mapping[int, Facts], guides: Mapping[int, int], boxes: bool
) -> list[PaperBlock]:
    """Return the chosen weeks by block. With `boxes` every week is printed, since each is written on."""
    blocks: list[tuple[str, str, list[PaperWeek]]] = []
    printed: dict[tuple[object, ...], str] = {}
    for run in _runs(source, weeks, boxes):
        first = run[0]
        if not blocks or blocks[-1][0] != first.block.key:
            blocks.append((first.block.key, first.block.name, []))
        before = "" if boxes or source.dates else printed.get(content(first.week), "")
        days = [] if before else [_day(day, source, facts, guides, boxes) for day in first.week.days]
        blocks[-1][2].append(PaperWeek(_title(run), first.week.deload, first.week.note, days, before))
        printed.setdefault(content(first.week), _place(run))
    return [PaperBlock(name, tuple(weeks)) for _key, name, weeks in blocks]


def _runs(source: Source, weeks: Sequence[NumberedWeek], boxes: bool) -> list[list[NumberedWeek]]:
    """Put weeks in a row that say the same together."""
    runs: list[list[NumberedWeek]] = []
    for one in weeks:
        last = runs[-1][-1] if runs else None
        same = last and last.block.key == one.block.key and content(last.week) == content(one.week)
        if same and not boxes and not source.dates:
            runs[-1].append(one)
        else:
            runs.append([one])
    return runs


def content(week: Week) -> tuple[object, ...]:
    """Return what a week says on paper, without its keys."""
    days = tuple((day.name, tuple(_said(slot) for slot in day.slots)) for day in week.days)
    return week.deload, week.note, days


def _said(slot: Slot) -> tuple[object, ...]:
    dose = (slot.sets, slot.reps, slot.rir, slot.rest_s, slot.tempo, slot.load_pct)
    return (slot.exercise, slot.pair, *dose, slot.note, slot.weaker_first)


def _title(run: Sequence[NumberedWeek]) -> str:
    first, last = run[0].number, run[-1].number
    if first == last:
        return _("Week %(number)s") % {"number": first}
    return _("Weeks %(first)s–%(last)s, each the same") % {"first": first, "last": last}


def _place(run: Sequence[NumberedWeek]) -> str:
    """Name the weeks of a run where others point to them: "Build, weeks 1–5"."""
    if len(run) == 1:
        return run[0].label
    numbers = {"block": run[0].block.name, "first": run[0].number, "last": run[-1].number}
    return _("%(block)s, weeks %(first)s–%(last)s") % numbers


def _day(day: Day, source: Source, facts: Mapping[int, Facts], guides: Mapping[int, int], boxes: bool) -> PaperDay:
    marks = labels(day.slots)
    lines = [
        _line(
            slot,
            mark,
            facts.get(slot.exercise),
            guides.get(slot.exercise, 0),
            boxes,
            start_words(source, slot, facts.get(slot.exercise)),
        )
        for slot, mark in zip(day.slots, marks, strict=True)
    ]
    return PaperDay(day.name, source.dates.get(day.key), lines)


def _line(slot: Slot, mark: str, fact: Facts | None, guide: int, boxes: bool, start: str) -> Line:
    return Line(
        label=mark,
        name=fact.name if fact else _("an exercise that is gone"),
        guide=guide,
        sets=show_range(slot.sets),
        reps=reps_words(slot, fact),
        rir=show_range(slot.rir),
        rest=rest_words(slot.rest_s),
        tempo=slot.tempo,
        note=f"{_('Weaker side first.')} {slot.note}".strip() if slot.weaker_first else slot.note,
        load=start or ramp_words(slot.load_pct),
        boxes=range(1, slot.sets[1] + 1) if boxes else range(0),
    )


def reps_words(slot: Slot, fact: Facts | None) -> str:
    """Write the repetitions, or what is counted instead of them."""
    text = show_range(slot.reps)
    if fact and fact.rep_unit == "seconds":
        text = _("%(range)s s") % {"range": text}
    elif fact and fact.rep_unit == "steps":
        text = _("%(range)s steps") % {"range": text}
    return _("%(reps)s each side") % {"reps": text} if fact and fact.one_sided else text


def rest_words(seconds: int) -> str:
    """Write a rest as on a watch: "90 s", "2 min", "2 min 30 s"; empty for none."""
    minutes, rest = divmod(seconds, 60)
    if seconds == 0:
        return ""
    if seconds < 120 or minutes == 0:
        return _("%(seconds)s s") % {"seconds": seconds}
    text = ngettext("%(count)s min", "%(count)s min", minutes) % {"count": minutes}
    return f"{text} {_('%(seconds)s s') % {'seconds': rest}}" if rest else text


def ramp_words(per_cent: float) -> str:
    """Say what a ramp means the load to be; empty where it says nothing."""
    if not per_cent:
        return ""
    return _("load about %(per_cent)s %% of the first week's") % {"per_cent": number_format(round(per_cent, 1))}


def start_words(source: Source, slot: Slot, fact: Facts | None) -> str:
    """Say where the client begins with an exercise; empty where that is not known or not its first slot."""
    kg = source.starts.get(slot.key)
    if kg is None or fact is None:
        return ""
    words = load_words(kg, source.unit, fact.load_kind, fact.equipment_kind)
    # Numbers and our own words only; a load is safe text with a no-break space.
    return mark_safe(_("begin with %(load)s") % {"load": words}) if words else ""  # noqa: S308
