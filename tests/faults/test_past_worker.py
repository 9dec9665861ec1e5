"""A worker may die while it reads a long table, and while it saves it: another takes it up, nothing is half there."""

import time

import psycopg
import pytest

from tests.faults.machine import Machine
from tests.faults.past_scene import ROWS

pytestmark = pytest.mark.services


@pytest.fixture
def machine(tmp_path, clean_database, redis_url):
    made = Machine(tmp_path, clean_database, redis_url)
    yield made
    made.stop()


def call(machine: Machine, function: str) -> None:
    machine.manage("shell", "--no-imports", "-c", f"from tests.faults import past_scene; past_scene.{function}()")


def told(machine: Machine) -> tuple[str, int, bool, int]:
    """Return the run's state, how often it was begun, whether the file is kept, and how many sets are in the log."""
    query = "SELECT state, attempt, file IS NOT NULL, (SELECT count(*) FROM logbook_setlog) FROM logbook_pastrun"
    with psycopg.connect(machine.database) as connection:
        return connection.execute(query).fetchone()


def wait_for(machine: Machine, *start: object) -> tuple[str, int, bool, int]:
    end = time.monotonic() + 60
    while (now := told(machine))[: len(start)] != start:
        assert time.monotonic() < end, f"{now}\n{(machine.folder / 'worker.log').read_text()[-3000:]}"
        time.sleep(0.02)
    return now


@pytest.mark.timeout(300)
def test_a_worker_that_is_killed_while_it_reads_or_saves_leaves_nothing_half(machine):
    call(machine, "begin")
    machine.start_worker("long")
    wait_for(machine, "running", 1)
    machine.kill_worker()
    assert told(machine) == ("running", 1, True, 0)
    call(machine, "lose")
    machine.start_worker("long")
    # The uploaded file is kept no longer than until it is read.
    assert wait_for(machine, "read", 2) == ("read", 2, False, 0)
    call(machine, "save")
    wait_for(machine, "running", 1)
    time.sleep(0.5)
    machine.kill_worker()
    assert told(machine) == ("running", 1, False, 0)
    call(machine, "lose")
    machine.start_worker("long")
    assert wait_for(machine, "done", 2)[-1] == ROWS
