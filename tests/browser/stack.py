"""The program as it is really run: its own processes, on the default set-up and on the production set-up."""

import contextlib
import os
import re
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from scripts.services import spare_port

ROOT = Path(__file__).resolve().parents[2]
# For Chromium: nothing but loopback is asked for, and it may run as root in a container.
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"]
FLAGS += ["--disable-component-update", "--disable-sync"]
# What has not come on a page by then will not come, on a slow machine with other work either.
PATIENCE_MS = 20_000


@dataclass
class Stack:
    """A running server (and worker); `url` is where it answers, `outbox` what it mailed."""

    url: str
    environment: dict[str, str]
    mail: Path
    processes: list[subprocess.Popen[bytes]] = field(default_factory=list)

    def manage(self, *arguments: str) -> None:
        command = [sys.executable, "manage.py", *arguments]
        subprocess.run(command, cwd=ROOT, env=self.environment, check=True, capture_output=True)

    def start(self, name: str, *command: str) -> None:
        log = (self.mail.parent / f"{name}.log").open("wb")
        self.processes.append(
            subprocess.Popen(command, cwd=ROOT, env=self.environment, stdout=log, stderr=subprocess.STDOUT)
        )

    def link_mailed_to(self, address: str, path: str) -> str:
        """Wait for a mail to `address` and return the newest link in it that has `path`."""
        end = time.monotonic() + 60
        while time.monotonic() < end:
            text = (self.mail.parent / "web.log").read_text(encoding="utf-8", errors="replace").replace("=\n", "")
            for mail in reversed(text.split("\nSubject: ")[1:]):
                links = re.findall(rf"{re.escape(self.url)}(/{path}/\S+)", mail)
                if f"To: {address}" in mail and links:
                    return self.url + links[0]
            time.sleep(0.2)
        raise AssertionError(f"no mail to {address} with /{path}/")


@contextlib.contextmanager
def running_stack(folder: Path, database: str = "", redis: str = "") -> Iterator[Stack]:
    """Start gunicorn, and with `redis` a Celery worker and beat; stop them all at the end."""
    port = spare_port()
    url = f"http://127.0.0.1:{port}"
    clean = {name: value for name, value in os.environ.items() if not name.startswith("SINEWRIGHT_")}
    environment = {
        **clean,
        "SINEWRIGHT_DATA_DIR": str(folder),
        "SINEWRIGHT_BASE_URL": url,
        "SINEWRIGHT_DATABASE_URL": database,
        "SINEWRIGHT_REDIS_URL": redis,
        "PYTHONUNBUFFERED": "1",
    }
    stack = Stack(url, environment, folder / "mail")
    stack.manage("set_up")
    scripts = Path(sys.executable).parent
    try:
        stack.start("web", str(scripts / "gunicorn"), "coaching.wsgi", "-b", f"127.0.0.1:{port}", "--threads", "4")
        if redis:
            stack.start("worker", str(scripts / "celery"), "-A", "coaching", "worker", "--concurrency", "1")
        wait_until_it_answers(stack)
        yield stack
    finally:
        for process in stack.processes:
            process.terminate()
        for process in stack.processes:
            process.wait(20)


def wait_until_it_answers(stack: Stack) -> None:
    end = time.monotonic() + 90
    while time.monotonic() < end:
        with contextlib.suppress(OSError), urllib.request.urlopen(f"{stack.url}/health/", timeout=2):
            return
        time.sleep(0.2)
    raise AssertionError((stack.mail.parent / "web.log").read_text())
