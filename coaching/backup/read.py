"""Open a backup and say whether it is whole and fits."""

import hashlib
import json
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from django.utils.translation import gettext as _

from coaching.backup.contents import FORMAT, kept_models, migrations


class Unusable(Exception):
    """The file cannot be restored here; the text says why and what to do."""


def open_backup(path: Path) -> tuple[zipfile.ZipFile, dict[str, Any]]:
    """Open the file and return it with its manifest."""
    try:
        archive = zipfile.ZipFile(path)
        manifest = json.loads(archive.read("manifest.json"))
    except (OSError, zipfile.BadZipFile, KeyError, ValueError) as error:
        text = _("%(path)s is not a backup of this program: %(error)s") % {"path": path, "error": error}
        raise Unusable(text) from error
    if not isinstance(manifest, dict) or manifest.get("format") != FORMAT:
        raise Unusable(_("The backup has another format than this release reads."))
    return archive, manifest


def check_whole(archive: zipfile.ZipFile, manifest: dict[str, Any]) -> None:
    """Compare every table with the print taken when it was written."""
    for table in manifest["tables"]:
        sha256 = hashlib.sha256()
        try:
            with archive.open(f"{table['table']}.jsonl") as member:
                while data := member.read(1 << 20):
                    sha256.update(data)
        except (KeyError, zipfile.BadZipFile, OSError) as error:
            raise Unusable(_("Table %(table)s cannot be read: the file is damaged.") % table) from error
        if sha256.hexdigest() != table["sha256"]:
            raise Unusable(_("Table %(table)s is not as it was written: the file is damaged.") % table)


def check_fits(manifest: dict[str, Any]) -> None:
    """Compare the tables of the backup with those of this database."""
    here, there = set(migrations()), set(manifest["migrations"])
    if here != there:
        differing = ", ".join(sorted(here ^ there)[:5])
        raise Unusable(
            _(
                "The backup was written by another release (differing migrations: %(names)s). Restore it with the "
                "release that wrote it, then upgrade."
            )
            % {"names": differing}
        )
    unknown = {row["table"] for row in manifest["tables"]} ^ {model._meta.label_lower for model in kept_models()}
    if unknown:
        raise Unusable(_("The backup has other tables: %(names)s") % {"names": ", ".join(sorted(unknown))})


def lines_of(archive: zipfile.ZipFile, table: str) -> Iterator[str]:
    with archive.open(f"{table}.jsonl") as member:
        for line in member:
            yield line.decode()
