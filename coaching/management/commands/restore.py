"""Fill an empty database from a backup, or only check the file."""

from pathlib import Path

from django.core.management.base import BaseCommand, CommandError, CommandParser

from coaching.backup.read import Unusable, check_whole, open_backup
from coaching.backup.restore import restore_backup, same_key


class Command(BaseCommand):
    help = "Fill an empty, migrated database from a backup: all of it, or nothing."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path)
        parser.add_argument("--check", action="store_true", help="only say whether the file is whole")

    def handle(self, *args: object, file: Path, check: bool, **options: object) -> None:
        try:
            if check:
                archive, manifest = open_backup(file)
                with archive:
                    check_whole(archive, manifest)
                self.stdout.write(f"{file} is whole: written {manifest['written_at']}")
                return
            manifest = restore_backup(file, self.stdout.write)
        except Unusable as problem:
            raise CommandError(str(problem)) from problem
        if not same_key(manifest):
            self.stderr.write(
                "The backup was written under another secret key: put the old one into SINEWRIGHT_SECRET_KEY or "
                "SINEWRIGHT_SECRET_KEY_FALLBACKS, or second factors must be set up anew."
            )
        self.stdout.write(f"restored what was written {manifest['written_at']}")
