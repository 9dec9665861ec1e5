"""Insert many plain rows at once: a plan for thirty clients is twelve thousand of them."""

from collections.abc import Iterable, Mapping
from typing import Any

from django.db import connections, models, router

# What every database driver takes as it is. Anything else goes through its field first.
PLAIN = (int, str, float, bool, type(None))


def insert_rows(model: type[models.Model], rows: Iterable[Mapping[str, Any]]) -> int:
    """Insert a row for each mapping of column attributes ("exercise_id", not "exercise") to values; return how many.

    What is left out has its field's default. As with `bulk_create` no signal is sent; unlike it no instance is made,
    no id comes back, and nothing is said of a value that its column would cut or round: the caller's values are right.
    The database checks its constraints. Inside the caller's transaction.
    """
    connection = connections[router.db_for_write(model)]
    fields = [field for field in model._meta.concrete_fields if not field.primary_key]
    usual = {field.attname: field.get_default() for field in fields}
    found = [list({**usual, **row}.values()) for row in rows]
    for values in found:
        for place, value in enumerate(values):
            if type(value) not in PLAIN:
                values[place] = fields[place].get_db_prep_save(value, connection)
    if not found:
        return 0
    quote = connection.ops.quote_name
    table, columns = quote(model._meta.db_table), ", ".join(quote(field.column) for field in fields)
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            # What the database refuses is said when the copy ends: as Django's own errors, like everywhere.
            with connection.wrap_database_errors, cursor.copy(f"COPY {table} ({columns}) FROM STDIN") as copy:
                for values in found:
                    copy.write_row(values)
        else:
            marks = ", ".join(["%s"] * len(fields))
            cursor.executemany(f"INSERT INTO {table} ({columns}) VALUES ({marks})", found)  # noqa: S608 - our own names
    return len(found)
