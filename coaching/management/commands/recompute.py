"""Rebuild derived rows from the logs, or work off what waits."""

from django.core.management.base import BaseCommand, CommandError, CommandParser

from accounts.models import Client
from coaching.recompute import run
from logbook.models import RecomputeRequest


class Command(BaseCommand):
    help = "Rebuild every derived row from the logs (--all, --client), or work off waiting requests (--pending)."

    def add_arguments(self, parser: CommandParser) -> None:
        which = parser.add_mutually_exclusive_group(required=True)
        which.add_argument("--all", action="store_true", help="throw away and rebuild the rows of every client")
        which.add_argument("--client", type=int, metavar="ID", help="throw away and rebuild the rows of one client")
        which.add_argument("--pending", action="store_true", help="only what a waiting request asks for")

    def handle(self, *args: object, client: int | None, pending: bool, **options: object) -> None:
        if pending:
            ids = list(RecomputeRequest.objects.order_by("client").values_list("client", flat=True).distinct())
        else:
            ids = list(Client.objects.order_by("pk").values_list("pk", flat=True))
            if client is not None:
                if client not in ids:
                    raise CommandError(f"There is no client {client}.")
                ids = [client]
        weeks = 0
        for number, client_id in enumerate(ids, 1):
            weeks += len(run.work_off(client_id) if pending else run.rebuild(client_id))
            if number % 10 == 0:
                self.stdout.write(f"{number} of {len(ids)} clients")
        self.stdout.write(f"{len(ids)} clients, {weeks} weeks")
