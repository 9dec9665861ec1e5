"""Write a backup while the program serves."""

import contextlib
import hashlib
import json
import zipfile
from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path
from typing import IO

from django.core import serializers
from django.core.serializers.json import DjangoJSONEncoder
from django.db import connection, transaction
from django.db.models import Model
from django.utils import timezone

from coaching.backup.contents import FORMAT, kept_models, key_print, migrations

ROWS_AT_ONCE = 2000


@contextlib.contextmanager
def one_moment() -> Iterator[None]:
    """Read every table as it was at the same moment, without holding up those who write."""
    if connection.in_atomic_block:  # whoever opened the transaction chose how it sees the others
        yield
        return
    if connection.vendor == "sqlite":
        # A deferred transaction only reads: with the write-ahead log nobody waits for it.
        connection.ensure_connection()  # which reads the mode from the settings
        mode, connection.transaction_mode = connection.transaction_mode, "DEFERRED"
        try:
            with transaction.atomic():
                yield
        finally:
            connection.transaction_mode = mode
        return
    with transaction.atomic():
        with connection.cursor() as cursor:
            cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ READ ONLY")
        yield


class Exact(DjangoJSONEncoder):
    """Keeps the microseconds that Django's own encoder cuts off."""

    def default(self, o: object) -> object:
        return o.isoformat() if isinstance(o, datetime) else super().default(o)


class Digest:
    """A text stream into a binary one that counts and prints what went through."""

    def __init__(self, stream: IO[bytes]) -> None:
        self.stream, self.sha256 = stream, hashlib.sha256()

    def write(self, text: str) -> None:
        data = text.encode()
        self.sha256.update(data)
        self.stream.write(data)


def rows_of(model: type[Model], counted: Callable[[], None]) -> Iterator[Model]:
    many = [field.name for field in model._meta.many_to_many]
    for row in model._base_manager.order_by("pk").prefetch_related(*many).iterator(chunk_size=ROWS_AT_ONCE):
        counted()
        yield row


def write_table(archive: zipfile.ZipFile, model: type[Model]) -> dict[str, object]:
    """Add one table as JSON lines; keys are sorted, so that the same rows give the same bytes on every engine."""
    rows = 0

    def counted() -> None:
        nonlocal rows
        rows += 1

    with archive.open(f"{model._meta.label_lower}.jsonl", "w", force_zip64=True) as member:
        out = Digest(member)
        serializers.serialize("jsonl", rows_of(model, counted), stream=out, sort_keys=True, cls=Exact)
    return {"table": model._meta.label_lower, "rows": rows, "sha256": out.sha256.hexdigest()}


def write_backup(path: Path, told: Callable[[str], None] = lambda line: None) -> dict[str, object]:
    """Write a backup to `path` and return its manifest; nothing is at `path` before the backup is whole.

    The file is readable by its owner only: it holds health data, password hashes and encrypted second factors.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(path.name + ".part")
    part.touch(mode=0o600)
    try:
        with zipfile.ZipFile(part, "w", zipfile.ZIP_DEFLATED) as archive, one_moment():
            tables = []
            for model in kept_models():
                tables.append(write_table(archive, model))
                told(f"{tables[-1]['table']}: {tables[-1]['rows']} rows")
            manifest = {
                "format": FORMAT,
                "written_at": timezone.now().isoformat(),
                "secret_key_print": key_print(),
                "migrations": migrations(),
                "tables": tables,
            }
            archive.writestr("manifest.json", json.dumps(manifest, indent=1))
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)
    return manifest
