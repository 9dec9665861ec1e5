"""Write an export as it is read from the database: nothing is held in memory, and the first bytes leave at once."""

import csv
import io
import json
import zipfile
from collections.abc import Iterator
from typing import Any

from django.db.models import Field, Model, Q

from accounts.models import Client, Membership, Practice, User
from coaching.backup.write import one_moment
from coaching.portable.dictionary import dictionary_of
from coaching.portable.refs import Numbers, columns, encode, has_own_id, number_library
from coaching.portable.scope import PEOPLE, Table, people_of, tables_for
from programs.models import Equipment, Exercise

FORMAT = "sinewright-export/1"
ROWS_AT_ONCE = 1000
# A cell that begins so is a formula to a spreadsheet; an apostrophe makes it text again. The JSON files have no need.
FORMULA = ("=", "+", "-", "@", "\t", "\r")


class Pipe(io.RawIOBase):
    """Where the archive writes and the answer reads; a zip can be written without going back."""

    def __init__(self) -> None:
        self.waiting: list[bytes] = []

    def writable(self) -> bool:
        return True

    def write(self, data: Any) -> int:
        self.waiting.append(bytes(data))
        return len(data)

    def take(self) -> bytes:
        taken, self.waiting = b"".join(self.waiting), []
        return taken


def export(practice: Practice, client: Client | None = None, *, for_client: bool = False) -> Iterator[bytes]:
    """Yield a zip of a practice, or of one client's part of it, piece by piece.

    It holds `manifest.json`, `dictionary.json` (every table and column, with a JSON Schema), and each table twice:
    `json/<table>.json` (an array of objects) and `csv/<table>.csv`. `for_client` leaves out what only coaches read.
    """
    pipe = Pipe()
    tables = tables_for(client, for_client=for_client)
    with zipfile.ZipFile(pipe, "w", zipfile.ZIP_DEFLATED) as archive, one_moment():
        archive.writestr("manifest.json", dumps(manifest_of(practice, client)) + "\n")
        archive.writestr("dictionary.json", json.dumps(dictionary_of([PEOPLE, *tables]), indent=1) + "\n")
        yield pipe.take()
        people = people_of(practice, client)
        numbers = numbers_of(practice, client, tables)
        yield from write_table(archive, pipe, PEOPLE, people, numbers)
        for table in tables:
            yield from write_table(archive, pipe, table, table.rows(practice, client), numbers)
    yield pipe.take()


def numbers_of(practice: Practice, client: Client | None, tables: list[Table]) -> Numbers:
    """Return the names that the rows have in this export."""
    numbers = Numbers()
    number_library(numbers)
    mentioned = Q(memberships__practice=practice) | Q(client__practice=practice)
    numbers.name(User, dict(User.objects.filter(mentioned).values_list("pk", "email")))
    numbers.name(Membership, dict(practice.memberships.order_by("pk").values_list("pk", "user__email")))
    if client is not None:  # the practice's own rows are not in it: their names say what they are
        for model in (Exercise, Equipment):
            numbers.name(model, dict(model._base_manager.filter(practice=practice).values_list("pk", "name")))
    for table in tables:
        numbers.number(table, table.rows(practice, client).values_list("pk", flat=True).iterator(ROWS_AT_ONCE))
    return numbers


def manifest_of(practice: Practice, client: Client | None) -> dict[str, Any]:
    return {
        "format": FORMAT,
        "practice": practice.name,
        "time_zone": practice.time_zone,
        "client": client.user.email if client else None,
    }


def dumps(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, sort_keys=True)


def write_table(archive: zipfile.ZipFile, pipe: Pipe, table: Table, rows: Any, numbers: Numbers) -> Iterator[bytes]:
    """Add one table in both forms; rows are read twice, so that neither form has to wait in memory."""
    fields = columns(table)
    with archive.open(f"json/{table.name}.json", "w", force_zip64=True) as member:
        before = "[\n"
        for row in records(table, fields, rows, numbers):
            member.write(f"{before}{dumps(row)}".encode())
            before = ",\n"
            yield pipe.take()
        member.write(b"[]\n" if before == "[\n" else b"\n]\n")
    with archive.open(f"csv/{table.name}.csv", "w", force_zip64=True) as member:
        text = io.TextIOWrapper(member, encoding="utf-8-sig", newline="", write_through=True)
        writer = csv.DictWriter(text, names(table, fields))
        writer.writeheader()
        for row in records(table, fields, rows, numbers):
            writer.writerow({name: cell(value) for name, value in row.items()})
            yield pipe.take()
        text.detach()


def names(table: Table, fields: list[Field]) -> list[str]:
    return [field.name for field in fields]


def records(table: Table, fields: list[Field], rows: Any, numbers: Numbers) -> Iterator[dict[str, Any]]:
    """Yield the rows of a table as an export writes them."""
    many = [field for field in fields if field.many_to_many]
    found = rows.prefetch_related(*(field.name for field in many)).iterator(chunk_size=ROWS_AT_ONCE)
    for place, row in enumerate(found, 1):
        record: dict[str, Any] = {}
        for field in fields:
            if field.many_to_many:
                linked = [numbers.of(field.related_model, one.pk) for one in getattr(row, field.name).all()]
                record[field.name] = sorted(linked)
            elif field.primary_key:
                record[field.name] = own_name(table.model, row, place)
            else:
                record[field.name] = encode(field, getattr(row, field.attname), numbers)
        yield record


def own_name(model: type[Model], row: Model, place: int) -> Any:
    """Return the row's id in the export: the one its phone made, or its number."""
    return str(row.pk) if has_own_id(model) else place


def cell(value: Any) -> Any:
    """Return a value for a spreadsheet's cell."""
    if isinstance(value, (dict, list)):
        return dumps(value)
    if isinstance(value, str) and value.startswith(FORMULA):
        return f"'{value}"
    return value
