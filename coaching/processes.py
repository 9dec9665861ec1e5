"""Work in a process of its own, where there is no broker: nobody should wait for it in front of a page."""

import os
import subprocess
import sys

from django.conf import settings

# Kept so that an ended process is reaped: the list is looked through whenever another one is begun.
_processes: list[subprocess.Popen[bytes]] = []


def begin(*command: str) -> None:
    """Begin one of our management commands. It is in the server's own process group: stopping the server stops it, and
    the sweep takes up what it left."""
    _processes[:] = [one for one in _processes if one.poll() is None]
    _processes.append(
        subprocess.Popen(  # noqa: S603 - our own interpreter and command
            [sys.executable, str(settings.BASE_DIR / "manage.py"), *command],
            cwd=settings.BASE_DIR,
            env=os.environ.copy(),
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
        )
    )
