"""scripts/demo serves, does not do its work twice, and leaves nothing running behind."""

import os
import signal
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

import pytest

from scripts.services import port_is_taken, spare_port

ROOT = Path(__file__).resolve().parents[2]


def serve_and_stop(folder: Path, ending: signal.Signals) -> str:
    """Start the demo, read a page of it, stop it, and return what it printed."""
    port = spare_port()
    clean = {name: value for name, value in os.environ.items() if not name.startswith("SINEWRIGHT_")}
    demo = subprocess.Popen(
        [sys.executable, "scripts/demo", "--port", str(port)],
        cwd=ROOT,
        env={**clean, "SINEWRIGHT_DATA_DIR": str(folder)},
        stdout=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )
    try:
        end = time.monotonic() + 300
        while not port_is_taken(port):
            assert demo.poll() is None
            assert time.monotonic() < end
            time.sleep(0.5)
        with urllib.request.urlopen(f"http://127.0.0.1:{port}/account/login/", timeout=60) as page:
            assert page.status == 200
        demo.send_signal(ending)
        printed = demo.communicate(timeout=45)[0]
        assert demo.returncode == 0
        assert not port_is_taken(port)
        return printed
    finally:
        if demo.poll() is None:
            os.killpg(demo.pid, signal.SIGKILL)


@pytest.mark.services
@pytest.mark.timeout(600)
def test_demo_serves_until_it_is_stopped_and_goes_on_from_there(tmp_path):
    first = serve_and_stop(tmp_path, signal.SIGINT)
    assert first.count("16 weeks of training") == 23
    assert "ines@demo.example" in first
    second = serve_and_stop(tmp_path, signal.SIGTERM)
    assert second.count("already there") == 24
