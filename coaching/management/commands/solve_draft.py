"""Solve one draft: what the web process starts where there is no broker."""

from django.core.management.base import BaseCommand, CommandParser

from programs.services.draft_work import draft_work_off


class Command(BaseCommand):
    help = "Solve a draft that waits."
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("run", type=int, metavar="ID")

    def handle(self, *args: object, run: int, **options: object) -> None:
        if not draft_work_off(run):
            self.stdout.write(f"Draft {run} does not wait for a worker.")
