"""A practice that was installed with the first release goes on: its tables migrate, its rows are read, its pages open.

`early_practice.sql.gz` is what that release's demo wrote, cut down to two invented clients and their last five weeks.
"""

import gzip
import json
import os
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

HERE = Path(__file__).parent


@pytest.mark.timeout(900)
def test_an_early_practice_upgrades_and_every_page_opens_before_and_after_the_worker_has_run(tmp_path):
    with sqlite3.connect(tmp_path / "sinewright.sqlite3") as early:
        early.executescript(gzip.decompress((HERE / "early_practice.sql.gz").read_bytes()).decode())
    clean = {name: value for name, value in os.environ.items() if not name.startswith("SINEWRIGHT_")}
    ran = subprocess.run(
        [sys.executable, str(HERE / "upgrade_walk.py")],
        env={**clean, "SINEWRIGHT_DATA_DIR": str(tmp_path)},
        capture_output=True,
        text=True,
    )
    assert ran.returncode == 0, ran.stderr
    told = json.loads(ran.stdout.splitlines()[-1])
    assert told["failed"] == []
    assert told["sets"] == [344, 344]
    assert told["weeks"] > 8
    assert all(routes > 25 for routes in told["routes"].values()), told["routes"]
