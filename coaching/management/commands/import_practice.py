"""Read an export of a practice into an empty one."""

from pathlib import Path

from django.core.management.base import BaseCommand, CommandError, CommandParser

from accounts.models import Membership
from coaching.portable.read import Unreadable, import_practice


class Command(BaseCommand):
    help = "Read an export of a practice into the empty practice of an owner: all of it, or nothing."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path)
        parser.add_argument("--owner", required=True, metavar="E-MAIL", help="who owns the empty practice")

    def handle(self, *args: object, file: Path, owner: str, **options: object) -> None:
        rows = Membership.objects.running().filter(role=Membership.Role.OWNER, user__email__iexact=owner)
        membership = rows.select_related("practice").first()
        if membership is None:
            raise CommandError(f"{owner} owns no practice here.")
        try:
            counts = import_practice(file, practice=membership.practice)
        except Unreadable as problem:
            raise CommandError(str(problem)) from problem
        for name, count in counts.items():
            self.stdout.write(f"{name}: {count} rows")
