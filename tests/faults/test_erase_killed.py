"""Erasing may die at its last line, and may meet a worker that writes: all of the client is there, or nothing."""

import subprocess
import sys

import psycopg
import pytest

from tests.faults.machine import ROOT, Machine
from tests.faults.past_scene import ROWS
from tests.faults.test_past_worker import call, wait_for

pytestmark = pytest.mark.services


@pytest.fixture
def machine(tmp_path, clean_database, redis_url):
    made = Machine(tmp_path, clean_database, redis_url)
    yield made
    made.stop()


def erase(function: str) -> str:
    return f"from tests.faults import erase_scene; erase_scene.{function}()"


def counted(machine: Machine) -> tuple[int, int, int]:
    """Return how many sets, clients and proofs there are."""
    query = """SELECT (SELECT count(*) FROM logbook_setlog), (SELECT count(*) FROM accounts_client),
        (SELECT count(*) FROM coaching_erasure)"""
    with psycopg.connect(machine.database) as connection:
        return connection.execute(query).fetchone()


@pytest.fixture
def read(machine):
    """Years of a client's sets, read by a worker and ready to be saved."""
    call(machine, "begin")
    machine.start_worker("long")
    wait_for(machine, "read", 1)
    return machine


@pytest.mark.timeout(300)
def test_an_erasure_that_is_killed_before_its_commit_has_changed_nothing(read):
    call(read, "save")
    wait_for(read, "done", 1)
    before = counted(read)
    assert before[0] == ROWS
    command = [sys.executable, "manage.py", "shell", "--no-imports", "-c", erase("erase_and_wait")]
    with subprocess.Popen(command, cwd=ROOT, env=read.environment, stdout=subprocess.PIPE) as process:
        assert process.stdout.read(len("removed")) == b"removed"
        assert counted(read) == before
        process.kill()
    assert counted(read) == before
    told = read.manage("shell", "--no-imports", "-c", erase("erase_now"))
    assert told == f"nothing left, {ROWS} sets"
    assert counted(read) == (0, before[1] - 1, 1)


@pytest.mark.timeout(300)
def test_a_client_who_is_erased_while_their_past_is_saved_leaves_nothing(read):
    clients = counted(read)[1]
    call(read, "save")
    wait_for(read, "running", 1)
    assert read.manage("shell", "--no-imports", "-c", erase("erase_now")).startswith("nothing left")
    # Whatever the worker still wanted to write, it has no one to write it for.
    assert counted(read) == (0, clients - 1, 1)
