"""The data dictionary of an export: what each table and column is, its type, unit and what it points at."""

from typing import Any

from django.db.models import Field, Model, UUIDField

from accounts.models import Membership, User
from coaching.portable.refs import BY_SLUG, columns
from coaching.portable.scope import BY_MODEL, Table

UNITS = {
    "load_kg": "kg",
    "target_load_kg": "kg",
    "mass_kg": "kg",
    "e1rm_kg": "kg",
    "minutes": "min",
    "rest_s": "s",
    "rep_s": "s",
    "setup_s": "s",
    "rir": "repetitions in reserve",
    "rir_min": "repetitions in reserve",
    "rir_max": "repetitions in reserve",
    "reps": "repetitions, seconds or steps, as the exercise counts",
    "session_rpe": "CR-10, 0 to 10",
    "level": "0 to 10",
    "credit": "sets counted for one set, over 0 to 1",
}
TYPES = {
    "BooleanField": {"type": "boolean"},
    "FloatField": {"type": "number"},
    "DateField": {"type": "string", "format": "date"},
    "DateTimeField": {"type": "string", "format": "date-time"},
    "TimeField": {"type": "string", "format": "time"},
    "UUIDField": {"type": "string", "format": "uuid"},
    "JSONField": {},
}


def dictionary_of(tables: list[Table]) -> dict[str, Any]:
    """Return {table: {"about", "made_by", "columns": {...}, "schema": a JSON Schema of the table's array}}."""
    return {table.name: entry(table) for table in tables}


def entry(table: Table) -> dict[str, Any]:
    fields = columns(table)
    about = (table.model.__doc__ or "").strip().splitlines()
    return {
        "about": about[0] if about and not about[0].startswith(f"{table.model.__name__}(") else table.name,
        "made_by": "the worker, from the other tables" if table.derived else "people",
        "columns": {field.name: column(field) for field in fields},
        "schema": {
            "$schema": "https://json-schema.org/draft/2020-12/schema",
            "type": "array",
            "items": {
                "type": "object",
                "properties": {field.name: schema(field) for field in fields},
                "required": [field.name for field in fields],
                "additionalProperties": False,
            },
        },
    }


def column(field: Field) -> dict[str, Any]:
    told: dict[str, Any] = {"means": str(field.verbose_name)}
    if field.help_text:
        told["note"] = str(field.help_text)
    if field.name in UNITS:
        told["unit"] = UNITS[field.name]
    if field.choices:
        told["values"] = {str(key): str(words) for key, words in field.flatchoices}
    if field.is_relation:
        told["points_at"] = target_of(field.related_model)
    return told


def target_of(model: type[Model]) -> str:
    """Say how a reference names what it points at."""
    if model in (User, Membership):
        return "people.email"
    if model in BY_SLUG:
        return f"the library's {model._meta.verbose_name_plural}, by slug"
    if model in BY_MODEL:
        return f"{BY_MODEL[model].name}.id, or the slug of a row of the library"
    return str(model._meta.verbose_name_plural)


def schema(field: Field) -> dict[str, Any]:
    """Return the JSON Schema of one column."""
    if field.many_to_many:
        return {"type": "array", "items": {"type": "string"}}
    if field.primary_key:
        return TYPES["UUIDField"] if isinstance(field, UUIDField) else {"type": "integer", "minimum": 1}
    if field.is_relation:
        return {"type": ["integer", "string", "null"]}
    kind = dict(TYPES.get(field.get_internal_type(), {"type": "string"}))
    if "Integer" in field.get_internal_type():
        kind = {"type": "integer"}
    if field.null and "type" in kind:
        kind["type"] = [kind["type"], "null"]
    return kind
