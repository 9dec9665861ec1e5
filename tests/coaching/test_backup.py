"""A backup holds everything, fits only what it came from, and a restore is all or nothing."""

import datetime as dt
import json
import zipfile
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command
from django.utils import timezone

from accounts.models import Practice, User
from coaching.backup.contents import kept_models
from coaching.backup.read import Unusable
from coaching.backup.restore import restore_backup
from coaching.backup.write import write_backup
from coaching.recompute import run
from logbook.models import SetLog
from tests.coaching import factories as make

pytestmark = pytest.mark.django_db


@pytest.fixture
def trained(world, exercises):
    make.train(world.client, world.coach, exercises, weeks=4, seed=3)
    run.work_off(world.client.pk)


def empty() -> None:
    for model in reversed(kept_models()):
        model._base_manager.all().delete()


def tables(path: Path) -> dict[str, bytes]:
    with zipfile.ZipFile(path) as archive:
        return {name: archive.read(name) for name in archive.namelist() if name != "manifest.json"}


def change(path: Path, name: str, new: bytes | None) -> None:
    """Write the archive again with one member replaced or left out."""
    with zipfile.ZipFile(path) as archive:
        members = {each: archive.read(each) for each in archive.namelist()}
    members[name] = new
    with zipfile.ZipFile(path, "w") as archive:
        for each, data in members.items():
            if data is not None:
                archive.writestr(each, data)


def test_restored_rows_are_those_backed_up_byte_for_byte(trained, tmp_path):
    before = write_backup(tmp_path / "a.zip")
    assert {row["table"]: row["rows"] for row in before["tables"]}["logbook.setlog"] == SetLog.objects.count() > 50
    empty()
    restore_backup(tmp_path / "a.zip")
    write_backup(tmp_path / "b.zip")
    assert tables(tmp_path / "a.zip") == tables(tmp_path / "b.zip")


def test_every_table_with_a_person_is_kept(trained, tmp_path):
    from django.apps import apps

    left_out = {model._meta.label for model in apps.get_models()} - {model._meta.label for model in kept_models()}
    # Neither holds anything typed by a person; a new table must be kept or be named here.
    assert left_out == {
        "auth.Permission",
        "auth.Group",
        "contenttypes.ContentType",
        "sessions.Session",
        "axes.AccessAttempt",
        "axes.AccessAttemptExpiration",
        "axes.AccessFailureLog",
        "axes.AccessLog",
    }


def test_new_rows_after_a_restore_get_new_numbers(trained, tmp_path, world):
    write_backup(tmp_path / "a.zip")
    empty()
    restore_backup(tmp_path / "a.zip")
    newest = max(User.objects.values_list("pk", flat=True))
    assert User.objects.create_user(email="late@example.org", name="Late", password=None).pk == newest + 1


def test_a_restore_never_overwrites_people(trained, tmp_path):
    write_backup(tmp_path / "a.zip")
    Practice.objects.update(name="Changed since")
    with pytest.raises(Unusable, match="People have accounts"):
        restore_backup(tmp_path / "a.zip")
    assert set(Practice.objects.values_list("name", flat=True)) == {"Changed since"}


@pytest.mark.parametrize("new", [b'{"model": "logbook.setlog"}\n', b"", None], ids=["changed", "emptied", "gone"])
def test_a_damaged_file_restores_nothing(trained, tmp_path, new):
    write_backup(tmp_path / "a.zip")
    change(tmp_path / "a.zip", "logbook.setlog.jsonl", new)
    empty()
    with pytest.raises(Unusable, match="damaged"):
        restore_backup(tmp_path / "a.zip")
    assert not User.objects.exists()
    with pytest.raises(CommandError, match="damaged"):
        call_command("restore", str(tmp_path / "a.zip"), "--check")


def test_a_backup_of_another_release_is_refused_with_the_way_out(trained, tmp_path):
    manifest = write_backup(tmp_path / "a.zip")
    manifest["migrations"].append("logbook.9999_from_the_future")
    change(tmp_path / "a.zip", "manifest.json", json.dumps(manifest).encode())
    with pytest.raises(Unusable, match=r"9999_from_the_future.*then upgrade"):
        restore_backup(tmp_path / "a.zip")


@pytest.mark.parametrize("content", [b"", b"no archive", b"PK\x03\x04"])
def test_what_is_no_backup_is_refused_in_words(tmp_path, content):
    (tmp_path / "x.zip").write_bytes(content)
    with pytest.raises(CommandError, match="not a backup"):
        call_command("restore", str(tmp_path / "x.zip"))


def test_a_failed_backup_leaves_no_file(trained, tmp_path, monkeypatch):
    def full(*args: object, **kwargs: object) -> None:
        raise OSError("disk full")

    monkeypatch.setattr("coaching.backup.write.serializers.serialize", full)
    with pytest.raises(OSError, match="disk full"):
        write_backup(tmp_path / "a.zip")
    assert list(tmp_path.iterdir()) == []


def test_a_backup_is_readable_by_its_owner_only(world, tmp_path):
    write_backup(tmp_path / "a.zip")
    assert (tmp_path / "a.zip").stat().st_mode & 0o077 == 0


def test_keep_deletes_all_but_the_newest(world, settings, tmp_path, capsys):
    settings.DATA_DIR = tmp_path
    (tmp_path / "backups").mkdir()
    for day in ("20200101", "20200102"):
        (tmp_path / "backups" / f"sinewright-{day}-000000.zip").touch()
    (tmp_path / "backups" / "mine.zip").touch()
    call_command("backup", "--keep", "2")
    left = sorted(path.name for path in (tmp_path / "backups").iterdir())
    assert left[:2] == ["mine.zip", "sinewright-20200102-000000.zip"]
    assert len(left) == 3


def test_another_secret_key_is_told(world, tmp_path, settings, capsys):
    write_backup(tmp_path / "a.zip")
    empty()
    settings.SECRET_KEY = "another"
    call_command("restore", str(tmp_path / "a.zip"))
    assert "another secret key" in capsys.readouterr().err


def test_moments_that_set_themselves_are_kept_to_the_microsecond(world, tmp_path):
    then = (timezone.now() - dt.timedelta(days=400)).replace(microsecond=523951)
    Practice.objects.update(created_at=then)
    write_backup(tmp_path / "a.zip")
    empty()
    restore_backup(tmp_path / "a.zip")
    assert set(Practice.objects.values_list("created_at", flat=True)) == {then}
