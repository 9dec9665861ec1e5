"""Settings refuse nonsense at start, naming the variable."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


def start(tmp_path: Path, **variables: str) -> subprocess.CompletedProcess[str]:
    """Import the settings in a process of their own."""
    clean = {name: value for name, value in os.environ.items() if not name.startswith("SINEWRIGHT_")}
    environment = {**clean, "SINEWRIGHT_DATA_DIR": str(tmp_path), **variables}
    code = "import coaching.settings as s; print(s.SECRET_KEY)"
    return subprocess.run([sys.executable, "-c", code], cwd=ROOT, env=environment, capture_output=True, text=True)


@pytest.mark.parametrize(
    ("variables", "named"),
    [
        ({"SINEWRIGHT_DEBUG": "yes"}, "SINEWRIGHT_DEBUG"),
        ({"SINEWRIGHT_MODE": "prod"}, "SINEWRIGHT_MODE"),
        ({"SINEWRIGHT_MODE": "production"}, "SINEWRIGHT_SECRET_KEY"),
        ({"SINEWRIGHT_MODE": "production", "SINEWRIGHT_SECRET_KEY": "short"}, "SINEWRIGHT_SECRET_KEY"),
        ({"SINEWRIGHT_LOCKOUT_FAILURES": "0"}, "SINEWRIGHT_LOCKOUT_FAILURES"),
        ({"SINEWRIGHT_EMAIL_PORT": "smtp"}, "SINEWRIGHT_EMAIL_PORT"),
        ({"SINEWRIGHT_SECRET_KEY_FILE": "/nowhere/key"}, "SINEWRIGHT_SECRET_KEY_FILE"),
        ({"SINEWRIGHT_EMAIL_SSL": "true", "SINEWRIGHT_EMAIL_TLS": "true"}, "SINEWRIGHT_EMAIL_SSL"),
        ({"SINEWRIGHT_LOG_LEVEL": "LOUD"}, "SINEWRIGHT_LOG_LEVEL"),
    ],
)
def test_nonsense_stops_the_start_and_is_named(tmp_path, variables, named):
    result = start(tmp_path, **variables)
    assert result.returncode != 0
    assert named in result.stderr.splitlines()[-1]


def test_a_trial_makes_its_own_key_once(tmp_path):
    first, second = start(tmp_path), start(tmp_path)
    assert first.returncode == 0, first.stderr
    assert first.stdout == second.stdout
    assert len(first.stdout.strip()) > 50


def test_a_secret_can_come_from_a_file(tmp_path):
    (tmp_path / "key").write_text("k" * 60 + "\n")
    assert start(tmp_path, SINEWRIGHT_SECRET_KEY_FILE=str(tmp_path / "key")).stdout.strip() == "k" * 60
