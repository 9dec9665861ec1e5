"""Health checks of the containers: exit status 0 when the named part does its duty."""

import json
import socket
import time
import urllib.error
import urllib.request
from pathlib import Path

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser

from coaching.celery import app


class Command(BaseCommand):
    help = "Say whether web, worker, worker-long or beat does its duty here."
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("part", choices=["web", "worker", "worker-long", "beat"])
        parser.add_argument("--port", type=int, default=8000)

    def handle(self, *args: object, part: str, port: int, **options: object) -> None:
        checks = {
            "web": lambda: web(port),
            "worker": lambda: worker("celery"),
            "worker-long": lambda: worker("long"),
            "beat": beat,
        }
        problem = checks[part]()
        if problem:
            raise CommandError(problem)
        self.stdout.write(f"{part} is healthy")


def web(port: int) -> str:
    """Ask the server's own /health/ on this machine."""
    host = settings.ALLOWED_HOSTS[0].lstrip(".") if settings.ALLOWED_HOSTS else "localhost"
    request = urllib.request.Request(f"http://127.0.0.1:{port}/health/", headers={"Host": host})
    try:
        with urllib.request.urlopen(request, timeout=5) as response:  # noqa: S310 - a fixed http address
            json.load(response)
    except (urllib.error.URLError, ValueError, OSError) as error:
        return f"/health/ does not answer well: {error}"
    return ""


def worker(queue: str) -> str:
    """Ask through the broker whether a worker on this machine listens to the queue: another's says nothing of ours."""
    here = f"@{socket.gethostname()}"
    for node, queues in (app.control.inspect(timeout=3).active_queues() or {}).items():
        if node.endswith(here) and queue in {one["name"] for one in queues}:
            return ""
    return f"no worker here listens to the queue {queue!r}"


def beat() -> str:
    """Look whether the schedule was written within three sweeps: beat saves it as it sends."""
    folder = Path(settings.CELERY_BEAT_SCHEDULE_FILENAME).parent
    name = Path(settings.CELERY_BEAT_SCHEDULE_FILENAME).name
    written = [path.stat().st_mtime for path in folder.glob(f"{name}*")]
    if not written:
        return "beat has not written its schedule"
    age = time.time() - max(written)
    limit = 3 * max(settings.RECOMPUTE_SWEEP_S, 60) + 60
    return "" if age < limit else f"beat's schedule is {age:.0f} s old"
