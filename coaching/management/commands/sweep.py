"""What Celery beat does in production, for the set-up without a broker."""

import contextlib
import time

from django.core.management.base import BaseCommand, CommandParser
from django.db import close_old_connections

from coaching.tasks import recompute_sweep, weekly_letters


class Command(BaseCommand):
    help = (
        "Pick up recompute requests, drafts and tables that nobody took, bring each client's rows into the new week, "
        "and send the weekly letters that are due."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--every", type=int, metavar="SECONDS", help="repeat until stopped")

    def handle(self, *args: object, every: int | None, **options: object) -> None:
        # Ctrl-C is how the repeating sweep ends.
        with contextlib.suppress(KeyboardInterrupt):
            while True:
                recompute_sweep()
                weekly_letters()
                if not every:
                    return
                close_old_connections()
                time.sleep(every)
