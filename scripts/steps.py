"""The steps of scripts/test: each a command that must end well."""

import contextlib
import os
import signal
import subprocess
import tempfile
import time
from collections.abc import Iterator

try:
    from environment import ROOT, say
    from services import find_program, install_program
except ModuleNotFoundError:  # in the tests, where scripts/ is a package
    from scripts.environment import ROOT, say
    from scripts.services import find_program, install_program


class Run:
    """Runs the steps, and remembers what failed and what could not be run."""

    def __init__(self) -> None:
        self.failed: list[str] = []
        self.skipped: list[str] = []

    def step(self, name: str, command: list[str], **environment: str) -> None:
        """Run one step to its end, its output as it comes."""
        started = time.monotonic()
        say(f"== {name}")
        result = subprocess.run(command, cwd=ROOT, env={**os.environ, **environment})
        self.note(name, result.returncode, started)

    @contextlib.contextmanager
    def beside(self, name: str, command: list[str], **environment: str) -> Iterator[None]:
        """Run one step while those within run; wait for it then, and show its output whole.

        When something within raises, or the person stops the run, the step is told to stop and not counted.
        """
        started = time.monotonic()
        say(f"== {name}: begun beside what follows")
        with tempfile.TemporaryFile() as printed:
            # In a session of its own, or Ctrl-C would reach it twice: from the terminal and from here.
            step = subprocess.Popen(
                command,
                cwd=ROOT,
                env={**os.environ, **environment},
                stdout=printed,
                stderr=subprocess.STDOUT,
                start_new_session=True,
            )
            try:
                yield
                step.wait()
            finally:
                if step.poll() is None:
                    # Like Ctrl-C, so that it ends what it started.
                    step.send_signal(signal.SIGINT)
                    step.wait()
                say(f"== {name}")
                printed.seek(0)
                say(printed.read().decode(errors="replace"))
            self.note(name, step.returncode, started)

    def note(self, name: str, status: int, started: float) -> None:
        if status:
            self.failed.append(name)
        say(f"== {name}: {'FAILED' if status else 'ok'} in {time.monotonic() - started:.0f} s")

    def have(self, program: str, what_for: str) -> bool:
        """Say whether `program` is here, installing it where we may; note what is skipped without it."""
        if find_program(program) or install_program(program):
            return True
        self.skipped.append(f"{what_for}: {program} is not installed and could not be installed here")
        return False
