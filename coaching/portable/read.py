"""Read an export of a practice into an empty one: all of it, or nothing."""

import json
import zipfile
from pathlib import Path
from typing import Any

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.db.models import Field, ForeignKey, Model
from django.utils.translation import gettext as _

from accounts.models import Membership, Practice, User
from coaching.portable.refs import BY_SLUG, INSIDE, MIXED, columns, has_own_id, walk
from coaching.portable.scope import SECRET, TABLES, Table
from coaching.portable.write import FORMAT
from logbook.services.recompute import recompute_request

ROWS_AT_ONCE = 500
Names = dict[type[Model], dict[Any, Any]]


class Unreadable(Exception):
    """The export cannot be read into this practice; the text says why, with table and row where there is one."""


@transaction.atomic
def import_practice(path: Path, *, practice: Practice) -> dict[str, int]:
    """Fill an empty practice and return how many rows each table has brought. Raises Unreadable, with nothing changed.

    People get accounts without a password: each comes in by resetting it. Whoever has an account already keeps it.
    Ids that phones made are kept, so an export cannot be read twice into one database. What the worker derives is made
    anew, and its tables are not read.
    """
    if practice.clients.exists() or practice.programs.exists():
        raise Unreadable(_("This practice has clients or programs already. An export is read into an empty one."))
    try:
        with zipfile.ZipFile(path) as archive:
            manifest = json.loads(archive.read("manifest.json"))
            if manifest.get("format") != FORMAT or manifest.get("client"):
                raise Unreadable(_("This is not the export of a practice that this release reads."))
            return _fill(archive, practice)
    except (OSError, zipfile.BadZipFile, KeyError, ValueError) as error:
        raise Unreadable(_("The file cannot be read: %(error)s") % {"error": error}) from error


def _fill(archive: zipfile.ZipFile, practice: Practice) -> dict[str, int]:
    names = _library()
    names[User] = {row["email"]: _person(row) for row in _rows(archive, "people")}
    counts = {"people": len(names[User])}
    for table in TABLES:
        if not table.derived:
            counts[table.name] = _read_table(archive, table, practice, names)
    for client in practice.clients.all():
        first = client.sessions.order_by("date").values_list("date", flat=True).first()
        if first:
            recompute_request(client_id=client.pk, since=first, reason="import")
    return counts


def _library() -> Names:
    names: Names = {model: dict(model._base_manager.values_list(slug, "pk")) for model, slug in BY_SLUG.items()}
    for model in MIXED:
        names[model] = dict(model._base_manager.filter(practice=None).values_list("slug", "pk"))
    return names


def _person(row: dict[str, Any]) -> int:
    """Return the account with this address, made if there is none."""
    found = User.objects.filter(email__iexact=row["email"]).first()
    if found is None:
        fields = {name: value for name, value in row.items() if name not in ("id", "email", *SECRET)}
        found = User.objects.create_user(email=row["email"], password=None, **fields)
    return found.pk


def _rows(archive: zipfile.ZipFile, name: str) -> list[dict[str, Any]]:
    return json.loads(archive.read(f"json/{name}.json"))


def _read_table(archive: zipfile.ZipFile, table: Table, practice: Practice, names: Names) -> int:
    fields, records = columns(table), _rows(archive, table.name)
    known = names.setdefault(table.model, {})
    for start in range(0, len(records), ROWS_AT_ONCE):
        several = records[start : start + ROWS_AT_ONCE]
        made = [_row(table, fields, record, practice, names, start + n) for n, record in enumerate(several, 1)]
        fresh = [
            (record, row)
            for record, row in zip(several, made, strict=True)
            if row.pk is None or has_own_id(table.model)
        ]
        _insert(table, [row for _record, row in fresh])
        for record, row in zip(several, made, strict=True):
            known[record["user"] if table.model is Membership else record["id"]] = row.pk
        for field in (field for field in fields if field.many_to_many):
            for record, row in fresh:
                getattr(row, field.name).set([names[field.related_model][one] for one in record[field.name]])
    return len(records)


def _row(
    table: Table, fields: list[Field], record: dict[str, Any], practice: Practice, names: Names, number: int
) -> Any:
    """Return one record as a row that is not saved yet; a coach who works here already is the row there is."""
    try:
        values = {
            field.attname: _value(field, record[field.name], names)
            for field in fields
            if not field.many_to_many and (not field.primary_key or has_own_id(table.model))
        }
    except (KeyError, ValidationError, TypeError) as error:
        place = {"table": table.name, "row": number, "error": error}
        raise Unreadable(_("Table %(table)s, row %(row)s: %(error)s") % place) from error
    if table.model is Membership:
        working = Membership.objects.running().filter(user=values["user_id"]).first()
        if working and working.practice_id == practice.pk:
            return working
        if working:
            raise Unreadable(_("%(person)s works in another practice here.") % {"person": record["user"]})
    if any(field.related_model is Practice for field in table.model._meta.local_fields):
        values["practice_id"] = practice.pk
    return table.model(**values)


def _value(field: Field, value: Any, names: Names) -> Any:
    if value is None:
        return None
    if isinstance(field, ForeignKey):
        return value if has_own_id(field.related_model) else names[field.related_model][value]
    if field.get_internal_type() == "JSONField":
        return walk(value, lambda key, inner: inner if _is_uuid(inner) else names[INSIDE[key]].get(inner))
    return field.to_python(value)


def _is_uuid(value: Any) -> bool:
    return isinstance(value, str) and len(value) == 36 and value.count("-") == 4


def _insert(table: Table, rows: list[Any]) -> None:
    """Save new rows with the moments that they were made at, which saving alone would set to now."""
    moments = [
        field
        for field in table.model._meta.local_fields
        if getattr(field, "auto_now_add", False) or getattr(field, "auto_now", False)
    ]
    kept = [{field.attname: getattr(row, field.attname) for field in moments} for row in rows]
    try:
        with transaction.atomic():
            table.model._base_manager.bulk_create(rows)
            for row, values in zip(rows, kept, strict=True):
                for name, value in values.items():
                    setattr(row, name, value)
            if moments and rows:
                table.model._base_manager.bulk_update(rows, [field.name for field in moments])
    except IntegrityError as error:
        clash = {"table": table.name, "error": error}
        raise Unreadable(_("Table %(table)s: rows of it are in this database already. %(error)s") % clash) from error
