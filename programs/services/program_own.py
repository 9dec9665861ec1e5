"""A practice's own exercises and equipment, told to a file and taken from one."""

from collections.abc import Iterable, Mapping
from typing import Any

from django.core.exceptions import ValidationError
from django.db import transaction

from accounts.models import Practice
from programs.document.errors import DocumentError
from programs.exchange.own import GRADES
from programs.models import Equipment, Exercise, Head, JointAction, Limit
from programs.models.equipment import validate_ladder
from programs.services.exercise_save import CreditInput, exercise_save, free_slug
from programs.services.library_rules import entry_faults

PLAIN = ("laterality", "load_kind", "body_share", "rep_unit", "compound", "set_up", "cues", "cautions")
PLAIN += ("rest_s", "rep_s", "setup_s", "limits_judged")


def own_definition(row: Exercise) -> dict[str, Any]:
    """Tell all of an own exercise but its variants; fetch credits (with head and long_by), actions, limits with it."""
    credits = sorted(row.credits.all(), key=lambda one: one.head.slug)
    return {
        "equipment": equipment_reference(row.equipment),
        "actions": sorted(action.slug for action in row.actions.all()),
        "limits": sorted(limit.slug for limit in row.limits.all()),
        **{name: getattr(row, name) for name in PLAIN},
        "credits": {one.head.slug: one.credit for one in credits},
        "long_heads": [one.head.slug for one in credits if one.loaded_long],
        "long_by": {one.head.slug: one.long_by.slug for one in credits if one.loaded_long and one.long_by},
        "grades": {name: [getattr(row, f"grade_{name}"), row.grade_reasons.get(name, "")] for name in GRADES},
    }


def own_equipment(row: Equipment) -> dict[str, Any]:
    return {"name": row.name, "kind": row.kind, "ladder": row.ladder, "ladder_lb": row.ladder_lb}


def equipment_reference(row: Equipment) -> str:
    return f"own/{row.slug}" if row.practice_id else row.slug


class OwnReader:
    """Checks definitions against what is known here, and saves them. Reads the library's names once."""

    def __init__(self, practice: Practice, equipment: Mapping[str, Mapping[str, Any]]) -> None:
        self.practice, self.told = practice, equipment
        self.heads = {row.slug: row for row in Head.objects.prefetch_related("actions")}
        self.actions = {row.slug: row for row in JointAction.objects.all()}
        self.limits = {row.slug: row for row in Limit.objects.all()}
        rows = Equipment.objects.filter(practice=None) | Equipment.objects.filter(practice=practice)
        self.equipment = {equipment_reference(row): row for row in rows}
        self.by_name = {row.name.casefold(): row for row in rows if row.practice_id}

    def check(self, name: str, definition: Mapping[str, Any], path: str) -> None:
        """Raise DocumentError when a definition names what is not here, or breaks a rule of anatomy, load or safety."""
        self._known(definition["actions"], self.actions, f"{path}.actions")
        self._known(definition["limits"], self.limits, f"{path}.limits")
        self._known(definition["credits"], self.heads, f"{path}.credits")
        self._known(definition["long_heads"], definition["credits"], f"{path}.long_heads")
        self._known(definition["long_by"].values(), self.actions, f"{path}.long_by")
        kind = self._kind(definition["equipment"], f"{path}.equipment")
        heads = {slug: {"actions": [action.slug for action in row.actions.all()]} for slug, row in self.heads.items()}
        if faults := entry_faults({**definition, "name": name}, heads, kind):
            raise DocumentError(path, f"{faults[0]}.")

    @transaction.atomic
    def save(self, reference: str, name: str, definition: Mapping[str, Any]) -> Exercise:
        """Add a checked exercise to the practice, under its slug if that is free, with its equipment if that is new."""
        slug = reference.removeprefix("own/")
        taken = Exercise.objects.filter(practice=self.practice, slug=slug).exists()
        grades = definition["grades"]
        columns = {
            "name": name,
            "slug": free_slug(Exercise, self.practice, name) if taken else slug,
            "equipment": self._equipment(definition["equipment"]),
            **{field: definition[field] for field in PLAIN},
            **{f"grade_{grade}": grades[grade][0] for grade in GRADES},
            "grade_reasons": {grade: grades[grade][1] for grade in GRADES if grades[grade][1]},
        }
        credits = [
            CreditInput(
                head_id=self.heads[head].pk,
                credit=credit,
                loaded_long=head in definition["long_heads"],
                long_by_id=self.actions[definition["long_by"][head]].pk if head in definition["long_by"] else None,
            )
            for head, credit in definition["credits"].items()
        ]
        return exercise_save(
            practice=self.practice,
            columns=columns,
            actions=[self.actions[one] for one in definition["actions"]],
            limits=[self.limits[one] for one in definition["limits"]],
            credits=credits,
        )

    def _known(self, names: Iterable[str], known: Mapping[str, Any], path: str) -> None:
        if unknown := [name for name in names if name not in known]:
            raise DocumentError(path, f"names what is not known here: {unknown[0]}.")

    def _kind(self, reference: str, path: str) -> str:
        if reference in self.equipment:
            return self.equipment[reference].kind
        told = self.told.get(reference)
        if told is None:
            raise DocumentError(path, f"names what is not known here: {reference}.")
        for field in ("ladder", "ladder_lb"):
            try:
                if told[field] is not None:
                    validate_ladder(told[field])
            except ValidationError as error:
                raise DocumentError(f"equipment.{reference}.{field}", error.messages[0]) from error
        return told["kind"]

    def _equipment(self, reference: str) -> Equipment:
        """Return the equipment of that reference or, told by the file, of that name; add it where there is none."""
        told = self.told.get(reference)
        here = self.equipment.get(reference)
        if told is None or (here and here.name == told["name"]):
            return self.equipment[reference]
        if told["name"].casefold() in self.by_name:
            return self.by_name[told["name"].casefold()]
        slug = reference.removeprefix("own/") if here is None else free_slug(Equipment, self.practice, told["name"])
        row = Equipment(practice=self.practice, slug=slug, **{name: told[name] for name in told if name != "id"})
        row.full_clean()
        row.save()
        self.equipment[reference] = self.by_name[row.name.casefold()] = row
        return row
