"""Fill an empty database from a backup: all of it, or nothing."""

import itertools
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

from django.core import serializers
from django.core.management.color import no_style
from django.db import connection, transaction
from django.db.models import Model
from django.db.models.sql import InsertQuery
from django.utils.translation import gettext as _

from accounts.models import Practice, User
from coaching.backup.contents import kept_models, key_print
from coaching.backup.read import Unusable, check_fits, check_whole, lines_of, open_backup

ROWS_AT_ONCE = 500


def insert(model: type[Model], rows: list[Model]) -> None:
    """Write rows just as they were. `bulk_create` would set the fields of `auto_now` to the time of the restore."""
    fields = model._meta.local_concrete_fields
    at_once = connection.ops.bulk_batch_size(fields, rows)
    for start in range(0, len(rows), at_once):
        query = InsertQuery(model)
        query.insert_values(fields, rows[start : start + at_once], raw=True)
        query.get_compiler(connection=connection).execute_sql()


def fill(archive: zipfile.ZipFile, model: type[Model]) -> int:
    """Insert one table's rows, then its many-to-many links; return the number of rows."""
    count, linked = 0, []
    lines = lines_of(archive, model._meta.label_lower)
    while several := list(itertools.islice(lines, ROWS_AT_ONCE)):
        found = list(serializers.deserialize("jsonl", "".join(several)))
        insert(model, [row.object for row in found])
        linked += [row for row in found if row.m2m_data]
        count += len(found)
    for row in linked:
        for name, values in row.m2m_data.items():
            getattr(row.object, name).set(values)
    return count


def restore_backup(path: Path, told: Callable[[str], None] = lambda line: None) -> dict[str, Any]:
    """Fill this database from `path` and return the manifest.

    Raises Unusable, and changes nothing, when the file is damaged or from another release, or when somebody already
    has an account here: a restore never overwrites people.
    """
    archive, manifest = open_backup(path)
    with archive:
        check_fits(manifest)
        check_whole(archive, manifest)
        with transaction.atomic():
            if User.objects.exists() or Practice.objects.exists():
                raise Unusable(_("People have accounts in this database. Restore into an empty one."))
            for model in reversed(kept_models()):
                model._base_manager.all().delete()
            for table, model in zip(manifest["tables"], kept_models(), strict=True):
                rows = fill(archive, model)
                if rows != table["rows"]:
                    raise Unusable(_("Table %(table)s has not the number of rows that was written.") % table)
                told(f"{table['table']}: {rows} rows")
            connection.check_constraints()
            with connection.cursor() as cursor:
                for statement in connection.ops.sequence_reset_sql(no_style(), kept_models()):
                    cursor.execute(statement)
    return manifest


def same_key(manifest: dict[str, Any]) -> bool:
    """Say whether second factors and the like can be read with this installation's secret key."""
    return bool(manifest["secret_key_print"] == key_print())
