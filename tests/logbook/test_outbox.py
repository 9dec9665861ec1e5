"""What the phone does with the server's answers."""

import shutil
import subprocess
from pathlib import Path

import pytest

HERE = Path(__file__).parent


@pytest.mark.skipif(shutil.which("node") is None, reason="Node is not installed: the browser test covers the phone")
def test_outbox_keeps_what_was_typed():
    """Runs outbox.test.mjs; its report is shown when one of its tests fails."""
    told = subprocess.run(["node", "--test", str(HERE / "outbox.test.mjs")], capture_output=True, text=True)
    assert told.returncode == 0, told.stdout
    assert "# pass 12" in told.stdout
