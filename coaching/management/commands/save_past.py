"""Read or save one long table of past training: what the web process starts where there is no broker."""

import uuid

from django.core.management.base import BaseCommand, CommandParser

from logbook.services.past_work import past_work_off


class Command(BaseCommand):
    help = "Read or save a table of past training that waits."
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("run", type=uuid.UUID, metavar="ID")

    def handle(self, *args: object, run: uuid.UUID, **options: object) -> None:
        if not past_work_off(run):
            self.stdout.write(f"Table {run} does not wait for a worker.")
