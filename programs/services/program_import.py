"""Bring a program in from our own JSON. Nothing is saved until all of it is right."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from accounts.models import Practice, User
from programs.document import DocumentError, document_from_json
from programs.document.find import places
from programs.document.model import Day, Slot, Week
from programs.exchange.json_read import ProgramFile
from programs.exchange.json_write import walk_slots, with_references
from programs.models import Exercise, Program
from programs.services.program_export import known_of
from programs.services.program_own import OwnReader
from programs.services.program_write import program_create
from programs.sheets.names import OWN, Catalogue
from programs.sheets.problems import Unknown


@dataclass(frozen=True, slots=True)
class Counted:
    """How much a program is, so that whoever brings it in sees at a glance whether it came whole."""

    blocks: int
    weeks: int
    days: int
    slots: int
    empty_days: list[str]


@dataclass(slots=True)
class JsonPlan:
    """What bringing a file in would do. `problem` is empty and `unknown` too when it can be done."""

    file: ProgramFile
    chosen: dict[str, int] = field(default_factory=dict)  # by reference, what is here
    added: list[str] = field(default_factory=list)  # references of own exercises that will be added
    notes: list[str] = field(default_factory=list)
    unknown: list[Unknown] = field(default_factory=list)
    problem: str = ""
    counted: Counted | None = None

    @property
    def added_names(self) -> list[str]:
        return [self.file.exercises[reference].name for reference in self.added]

    @property
    def is_right(self) -> bool:
        return not self.problem and not self.unknown


def catalogue_of(practice: Practice) -> Catalogue:
    """Read every exercise that a file of this practice may name (one query)."""
    rows = Exercise.objects.filter(practice=None) | Exercise.objects.filter(practice=practice)
    return Catalogue.of(known_of(row) for row in rows.only("slug", "name", "practice", "rest_s", "archived_at"))


def json_plan(file: ProgramFile, practice: Practice, choices: Mapping[str, str]) -> JsonPlan:
    """Say what bringing `file` in would do; `choices` name an exercise here for a reference that is not known."""
    plan, catalogue = JsonPlan(file), catalogue_of(practice)
    kept = 0
    reader = OwnReader(practice, file.equipment) if any(one.definition for one in file.exercises.values()) else None
    for number, (reference, one) in enumerate(file.exercises.items()):
        if found := catalogue.named(choices[reference]) if choices.get(reference) else _found(catalogue, one):
            plan.chosen[reference] = found.pk
            if found.reference != reference and not choices.get(reference):
                plan.notes.append(_("“%(name)s” is taken by its name from what is here.") % {"name": found.name})
            elif one.definition:
                kept += 1
        elif one.definition and reader:
            try:
                reader.check(one.name, one.definition, f"exercises[{number}].definition")
            except DocumentError as error:
                plan.problem = plan.problem or str(error)
            plan.added.append(reference)
        else:
            plan.unknown.append(Unknown(reference, one.name or reference, catalogue.near(one.name or reference)))
    if kept:
        words = ngettext("%(count)d own exercise is", "%(count)d own exercises are", kept) % {"count": kept}
        plan.notes.append(_("%(words)s here already and will not be changed.") % {"words": words})
    try:
        content = document_from_json({"blocks": numbered_blocks(file, dict.fromkeys(file.exercises, 1))})
    except DocumentError as error:
        plan.problem = plan.problem or str(error)
    else:
        plan.counted = counted(content)
    return plan


@transaction.atomic
def json_import(*, plan: JsonPlan, practice: Practice, author: User, name: str) -> Program:
    """Save the program of a plan that is right, with the own exercises that are new. DocumentError rolls all back."""
    if not plan.is_right:
        raise DocumentError("", plan.problem or "names an exercise that is not known here.")
    ids = dict(plan.chosen)
    reader = OwnReader(practice, plan.file.equipment) if plan.added else None
    for reference in plan.added:
        one = plan.file.exercises[reference]
        if reader and one.definition:
            ids[reference] = reader.save(reference, one.name, one.definition).pk
    return program_create(
        practice=practice,
        author=author,
        name=name,
        note=plan.file.note,
        document={"blocks": numbered_blocks(plan.file, ids)},
        written_for=plan.file.written_for,
        weekdays=plan.file.weekdays,
    )


def counted(content: Any) -> Counted:
    """Count the parts of a document."""
    nodes = [place.node for place in places(content)]
    days = [node for node in nodes if isinstance(node, Day)]
    return Counted(
        blocks=len(content.blocks),
        weeks=sum(isinstance(node, Week) for node in nodes),
        days=len(days),
        slots=sum(isinstance(node, Slot) for node in nodes),
        empty_days=[day.name for day in days if not day.slots],
    )


def _found(catalogue: Catalogue, one: Any) -> Any:
    """Return what a file's exercise is here: the same reference (and name, for an own one), else the same name."""
    same = catalogue.by_reference.get(one.reference)
    if same and (not one.reference.startswith(OWN) or same.name == one.name):
        return same
    return catalogue.named(one.name) if one.name else None


def numbered_blocks(file: ProgramFile, ids: Mapping[str, int]) -> Any:
    """Return the blocks with exercises by id; DocumentError for one that the file's list does not name."""

    def check(slot: dict[str, Any]) -> None:
        if not isinstance(slot["exercise"], str) or slot["exercise"] not in ids:
            raise DocumentError("blocks", f"name an exercise that is not in the list: {str(slot['exercise'])[:60]}.")

    walk_slots(file.blocks, check)
    return with_references(file.blocks, ids)
