"""Real processes around a real PostgreSQL and Redis: a worker that can be killed, and commands in the same set-up."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import psycopg

ROOT = Path(__file__).resolve().parents[2]
BIN = Path(sys.executable).parent
# After so long nothing more will come, on a slow machine with other work either.
PATIENCE_S = 150


class Machine:
    """One database and one broker; `start_worker` may be called again after `kill_worker`, or for another queue."""

    def __init__(self, folder: Path, database: str, redis: str) -> None:
        clean = {name: value for name, value in os.environ.items() if not name.startswith("SINEWRIGHT_")}
        self.folder, self.database = folder, database
        self.environment = {
            **clean,
            "SINEWRIGHT_DATA_DIR": str(folder),
            "SINEWRIGHT_DATABASE_URL": database,
            "SINEWRIGHT_REDIS_URL": redis,
            "SINEWRIGHT_VISIBILITY_TIMEOUT_S": "3",
            "SINEWRIGHT_RECOMPUTE_SWEEP_S": "1",
            "PYTHONPATH": str(ROOT),
        }
        self.worker: subprocess.Popen[bytes] | None = None
        self.started: list[subprocess.Popen[bytes]] = []

    def manage(self, *arguments: str) -> str:
        """Run a management command and return what it printed."""
        command = [sys.executable, "manage.py", *arguments]
        done = subprocess.run(command, cwd=ROOT, env=self.environment, capture_output=True, text=True)
        assert done.returncode == 0, done.stderr[-3000:]
        return done.stdout

    def call(self, function: str) -> str:
        """Call a function of tests.faults.scene inside the set-up and return what it printed."""
        return self.manage("shell", "--no-imports", "-c", f"from tests.faults import scene; scene.{function}()").strip()

    def start_worker(self, queue: str = "") -> None:
        """Start a worker for one queue, or for both."""
        log = (self.folder / "worker.log").open("ab")
        command = [str(BIN / "celery"), "-A", "coaching", "worker", "--concurrency", "2", "--loglevel", "INFO"]
        if queue:
            command += ["-Q", queue, "-n", f"{queue}@%h"]
        self.worker = subprocess.Popen(
            command, cwd=ROOT, env=self.environment, stdout=log, stderr=subprocess.STDOUT, start_new_session=True
        )
        self.started.append(self.worker)

    def kill_worker(self) -> None:
        """End the latest worker and its children at once, as a power cut would."""
        assert self.worker is not None
        self._kill(self.worker)

    def stop(self) -> None:
        for worker in self.started:
            if worker.poll() is None:
                self._kill(worker)

    def _kill(self, worker: subprocess.Popen[bytes]) -> None:
        os.killpg(worker.pid, signal.SIGKILL)
        worker.wait(10)

    def waiting(self) -> int:
        """Return how many recompute requests wait."""
        with psycopg.connect(self.database) as connection:
            row = connection.execute("SELECT count(*) FROM logbook_recomputerequest").fetchone()
        return row[0] if row else 0

    def until(self, what: Callable[[int], bool]) -> int:
        """Wait until the number of waiting requests fits, and return it."""
        end = time.monotonic() + PATIENCE_S
        while not what(count := self.waiting()):
            assert time.monotonic() < end, f"{count} requests wait:\n{(self.folder / 'worker.log').read_text()[-3000:]}"
            time.sleep(0.05)
        return count

    def sweep_until(self, what: Callable[[int], bool]) -> None:
        """The same, with the sweep that Celery beat sends every `RECOMPUTE_SWEEP_S` seconds; here less often, since
        each is a process of its own."""
        end = time.monotonic() + PATIENCE_S
        while not what(self.waiting()):
            assert time.monotonic() < end, f"{self.waiting()} requests wait"
            self.call("sweep_now")
            time.sleep(2)
