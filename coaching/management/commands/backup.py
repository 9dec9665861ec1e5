"""Write everything to one file."""

from datetime import UTC, datetime
from pathlib import Path

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser

from coaching.backup.write import write_backup


class Command(BaseCommand):
    help = "Write a backup of everything to one file, while the program serves. Either database engine can restore it."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", nargs="?", type=Path, help="default: backups/ in the data folder, named by time")
        parser.add_argument("--keep", type=int, metavar="N", help="afterwards delete all but the newest N of backups/")

    def handle(self, *args: object, file: Path | None, keep: int | None, **options: object) -> None:
        if keep is not None and (keep < 1 or file):
            raise CommandError("--keep takes a number of 1 or more, and no file.")
        folder = settings.DATA_DIR / "backups"
        path = file or folder / f"sinewright-{datetime.now(UTC):%Y%m%d-%H%M%S}.zip"
        if path.exists():
            raise CommandError(f"{path} exists already.")
        manifest = write_backup(path, self.stdout.write)
        rows = sum(table["rows"] for table in manifest["tables"])
        self.stdout.write(f"{path}: {rows} rows, {path.stat().st_size} bytes")
        for old in sorted(folder.glob("sinewright-*.zip"))[:-keep] if keep else []:
            old.unlink()
            self.stdout.write(f"deleted {old}")
