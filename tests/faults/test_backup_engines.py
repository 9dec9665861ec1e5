"""A backup of one database engine fills the other, and comes back the same: a client of the demo, both ways."""

import json
import zipfile
from pathlib import Path

import pytest

from tests.faults.machine import Machine

pytestmark = pytest.mark.services


def tables(path: Path) -> dict[str, bytes]:
    with zipfile.ZipFile(path) as archive:
        return {name: archive.read(name) for name in archive.namelist() if name != "manifest.json"}


def unnumbered(rows: bytes) -> list[str]:
    """The rows without the numbers that a rebuild gives out anew."""
    return sorted(json.dumps(json.loads(line) | {"pk": None}, sort_keys=True) for line in rows.splitlines())


EXPORT = """
import hashlib
from accounts.models import Practice
from coaching.portable.write import export
from io import BytesIO
from zipfile import ZipFile
archive = ZipFile(BytesIO(b"".join(export(Practice.objects.get()))))
for name in sorted(archive.namelist()):
    print(name, hashlib.sha256(archive.read(name)).hexdigest())
"""


def exported(machine: Machine) -> str:
    """Return the name and the digest of every file of the practice's export."""
    return machine.manage("shell", "--no-imports", "-c", EXPORT)


@pytest.mark.timeout(600)
def test_backup_travels_from_sqlite_to_postgresql_and_back_unchanged(tmp_path, clean_database):
    there = Machine(tmp_path / "postgresql", clean_database, "")
    here, again = (Machine(tmp_path / name, f"sqlite:///{tmp_path}/{name}.sqlite3", "") for name in ("here", "again"))
    for machine in (here, there, again):
        machine.folder.mkdir()
        del machine.environment["SINEWRIGHT_REDIS_URL"]
        machine.environment["SINEWRIGHT_SECRET_KEY"] = "one key for all three, or second factors are lost"
    for machine in (here, there, again):
        machine.manage("set_up")
    here.manage("load_demo", "--clients", "1")
    for number, (source, target) in enumerate(((here, there), (there, again))):
        source.manage("backup", str(tmp_path / f"{number}.zip"))
        assert "another secret key" not in target.manage("restore", str(tmp_path / f"{number}.zip"))
    again.manage("backup", str(tmp_path / "2.zip"))
    first, second, third = (tables(tmp_path / f"{number}.zip") for number in range(3))
    assert len(first["logbook.setlog.jsonl"].splitlines()) > 200
    assert first == second == third
    assert exported(here) == exported(there) == exported(again)
    # What was restored is whole for the program too: rebuilding the derived rows changes none of them.
    again.manage("recompute", "--all")
    again.manage("backup", str(tmp_path / "3.zip"))
    rebuilt = tables(tmp_path / "3.zip")
    assert [name for name in first if unnumbered(first[name]) != unnumbered(rebuilt[name])] == []
