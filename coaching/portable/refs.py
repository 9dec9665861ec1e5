"""How an export names rows: without the numbers of this database, which mean nothing in another."""

import dataclasses
from collections.abc import Callable
from typing import Any
from uuid import UUID

from django.db.models import Field, ForeignKey, Model, UUIDField

from accounts.models import Membership, Practice
from coaching.portable.scope import Table
from programs.models import Equipment, Exercise, Head, JointAction, Limit, PlannedSession, PlannedSlot, Reference

# Rows of the library are the same everywhere, and are named by their slug.
BY_SLUG: dict[type[Model], str] = dict.fromkeys((Head, JointAction, Limit, Reference), "slug")
# Own rows by their number in the export, those of the library by their slug.
MIXED = (Exercise, Equipment)
# What a number under one of these keys inside a JSON field points at.
INSIDE: dict[str, type[Model]] = {
    "exercise": Exercise,
    "exercise_id": Exercise,
    "exercises": Exercise,
    "to_exercise": Exercise,
    "slot": PlannedSlot,
    "session": PlannedSession,
}


def has_own_id(model: type[Model]) -> bool:
    """Say whether rows carry an id made on a phone, which is kept; others are numbered within the export."""
    return isinstance(model._meta.pk, UUIDField)


@dataclasses.dataclass
class Numbers:
    """Numbers rows from 1 by table, in the order of their primary keys; `of` finds a row's name in the export."""

    known: dict[type[Model], dict[Any, Any]] = dataclasses.field(default_factory=dict)

    def number(self, table: Table, pks: Any) -> None:
        """Give the rows of a table their numbers; `pks` in order."""
        if table.model is not Membership and not has_own_id(table.model):
            self.known.setdefault(table.model, {}).update({pk: place for place, pk in enumerate(pks, 1)})

    def name(self, model: type[Model], names: dict[Any, Any]) -> None:
        """Give rows names of their own: {primary key: name}."""
        self.known.setdefault(model, {}).update(names)

    def of(self, model: type[Model], pk: Any) -> Any:
        """Return what the export calls the row; None for one that it does not hold."""
        if pk is None:
            return None
        if has_own_id(model):
            return str(pk)
        return self.known.get(model, {}).get(pk)


def number_library(numbers: Numbers) -> None:
    """Name the rows that every installation has, and people by their address."""
    for model, field in BY_SLUG.items():
        numbers.name(model, dict(model._base_manager.values_list("pk", field)))
    for model in MIXED:
        numbers.name(model, dict(model._base_manager.filter(practice=None).values_list("pk", "slug")))


def encode(field: Field, value: Any, numbers: Numbers) -> Any:
    """Return one field's value as JSON can hold it."""
    if isinstance(field, ForeignKey):
        return numbers.of(field.related_model, value)
    if value is None:
        return None
    if field.name == "subject" and value.isdigit():  # a flag about an exercise
        return numbers.of(Exercise, int(value)) or value
    if field.name == "trends":
        return {numbers.of(Exercise, int(key)) or key: trend for key, trend in value.items()}
    if field.get_internal_type() == "JSONField":
        return walk(value, lambda key, inner: inside(key, inner, numbers))
    if isinstance(value, (int, float, str, bool)):
        return value
    return str(value) if isinstance(value, UUID) else value.isoformat()


def inside(key: str, value: Any, numbers: Numbers) -> Any:
    """Return the name of what a JSON value points at; an id that a phone made stays as it is."""
    if isinstance(value, str) and not value.isdigit():
        return value
    return numbers.of(INSIDE[key], int(value))


def walk(value: Any, change: Callable[[str, Any], Any], key: str = "") -> Any:
    """Return a JSON value with every reference inside it changed: numbers and names under the keys of INSIDE."""
    if isinstance(value, dict):
        return {name: walk(inner, change, name) for name, inner in value.items()}
    if isinstance(value, list):
        return [walk(inner, change, key if key in INSIDE else "") for inner in value]
    if key in INSIDE and value is not None and not isinstance(value, bool):
        return change(key, value)
    return value


def columns(table: Table) -> list[Field]:
    """Return the fields that an export writes."""
    fields = [*table.model._meta.local_concrete_fields, *table.model._meta.local_many_to_many]
    return [field for field in fields if field.name not in table.left_out and field.related_model is not Practice]
