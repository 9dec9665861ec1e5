"""The form of a block's ramp: what the base week holds, what was typed, and where the sets go."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from programs.document import Block, Week, labels
from programs.document.edits.ramp_rules import PARTS, shown_rule
from programs.document.model import Ramp, RampRule
from programs.document.ramp import courses
from programs.document.settle import counted
from programs.services.leads import leading_groups
from programs.services.tally_facts import Anatomy, ExerciseFacts
from programs.views.program_model import Problem


@dataclass(frozen=True, slots=True)
class Field:
    name: str
    value: str
    error: str


@dataclass(frozen=True, slots=True)
class RuleRow:
    """One line of the form. `written`: sets in the base week; `course`: sets week by week, when there is a ramp."""

    name: str
    place: str
    written: int
    count: int
    course: Sequence[int]
    sets: Field | None
    rir: Field
    load: Field


@dataclass(frozen=True, slots=True)
class RampForm:
    key: str
    exists: bool
    weeks: Field
    deload: bool
    every: RuleRow
    groups: Sequence[RuleRow]
    slots: Sequence[RuleRow]
    own: bool  # a slot has a rule of its own, or one was typed wrongly
    problem: Problem | None


def ramp_form(
    block: Block, facts: Mapping[int, ExerciseFacts], anatomy: Anatomy, problem: Problem | None = None
) -> RampForm:
    """Return the form for a block, with what was typed when it was refused (one query where there is no ramp yet)."""
    mine = problem if problem and problem.key == block.key else None
    ramp = block.ramp or _proposed(block.weeks[0])
    rising = len(block.weeks) - (1 if ramp.deload else 0)
    values = {"weeks": str(len(block.weeks)) if block.ramp else "6", **(mine.typed if mine else {})}

    def field(name: str, saved: str) -> Field:
        return Field(name, values.get(name, saved), mine.message if mine and mine.field == name else "")

    def row(
        prefix: str, rule: RampRule | None, name: str, place: str = "", written: int = 0, count: int = 0, course=()
    ):
        texts = shown_rule(rule)
        sets, rir, load = (field(f"{prefix}.{part}", texts[part]) for part in PARTS)
        return RuleRow(name, place, written, count, course, None if prefix == "every" else sets, rir, load)

    groups, own = dict(ramp.groups), dict(ramp.slots)
    lines = courses(ramp)
    slots = [
        (day, slot, label) for day in ramp.base.days for slot, label in zip(day.slots, labels(day.slots), strict=True)
    ]
    counts = {
        slug: sum(slot.group == slug and slot.key not in _with_sets(ramp) for _d, slot, _l in slots) for slug in lines
    }
    return RampForm(
        key=block.key,
        exists=block.ramp is not None,
        weeks=field("weeks", values["weeks"]),
        deload=mine.typed.get("deload") == "yes" if mine else ramp.deload,
        every=row("every", ramp.every, ""),
        groups=[
            row(
                f"group.{slug}",
                groups.get(slug),
                name,
                written=lines[slug].written,
                count=counts[slug],
                course=lines[slug].sets(rising, ramp.deload) if block.ramp else (),
            )
            for slug, name in anatomy.groups.items()
            if slug in lines
        ],
        slots=[
            row(
                f"slot.{slot.key}",
                own.get(slot.key),
                facts[slot.exercise].name if slot.exercise in facts else "",
                f"{day.name}{f', {label}' if label else ''}",
                slot.sets[1],
            )
            for day, slot, label in slots
        ],
        own=bool(own) or bool(mine and mine.field.startswith("slot.")),
        problem=mine,
    )


def _with_sets(ramp: Ramp) -> set[str]:
    return {key for key, rule in ramp.slots if rule.peak is not None}


def _proposed(week: Week) -> Ramp:
    """Return the ramp that a form begins with: the week as the base, and effort that rises (chosen: 3 to 1 RIR)."""
    leads = leading_groups(slot.exercise for day in week.days for slot in day.slots)
    return Ramp(counted(week, leads, None), every=RampRule(rir=(3, 1)))
