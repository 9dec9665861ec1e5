"""Make the project's own environment; needs nothing but Python 3.11 and its standard library."""

import hashlib
import subprocess
import sys
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
PYTHON = VENV / "bin" / "python"
MINIMUM = (3, 11)


def say(text: str) -> None:
    """Print a line of progress at once, also into a pipe."""
    print(text, flush=True)


def make_environment(requirements: str) -> None:
    """Create .venv and install `requirements` into it, unless that was done for the very same file contents."""
    if sys.version_info < MINIMUM:
        raise SystemExit(f"Python {MINIMUM[0]}.{MINIMUM[1]} or newer is needed; this is {sys.version.split()[0]}.")
    stamp = VENV / f"{requirements}.stamp"
    contents = b"".join((ROOT / name).read_bytes() for name in ("requirements.txt", requirements))
    digest = hashlib.sha256(contents).hexdigest()
    if stamp.exists() and stamp.read_text(encoding="utf-8") == digest:
        return
    if not PYTHON.exists():
        say("Making the environment in .venv ...")
        venv.create(VENV, with_pip=True, clear=True)
    say(f"Installing {requirements} (a minute or two on the first run) ...")
    quiet = ["--quiet", "--disable-pip-version-check", "--no-input"]
    subprocess.run([str(PYTHON), "-m", "pip", "install", *quiet, "-r", requirements], cwd=ROOT, check=True)
    stamp.write_text(digest, encoding="utf-8")
