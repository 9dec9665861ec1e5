"""A worker may die over a draft: another one takes it up, and the coach can stop that one too."""

import time

import psycopg
import pytest

from tests.faults.machine import PATIENCE_S, Machine

pytestmark = pytest.mark.services


@pytest.fixture
def machine(tmp_path, migrated_database, redis_url):
    made = Machine(tmp_path, migrated_database, redis_url)
    yield made
    made.stop()


def call(machine: Machine, function: str) -> str:
    code = f"from tests.faults import draft_scene; draft_scene.{function}()"
    return machine.manage("shell", "--no-imports", "-c", code).strip()


def told(machine: Machine) -> tuple[str, int, bool, int]:
    """Return the draft's state, how often it was begun, whether a week is found, and the days of the result."""
    query = """SELECT state, attempt, (progress->>'best') IS NOT NULL,
        jsonb_array_length(coalesce(result->'days', '[]')) FROM programs_draftrun"""
    with psycopg.connect(machine.database) as connection:
        return connection.execute(query).fetchone()


def wait_for(machine: Machine, *start: object) -> tuple[str, int, bool, int]:
    end = time.monotonic() + PATIENCE_S
    while (now := told(machine))[: len(start)] != start:
        assert time.monotonic() < end, f"{now}\n{(machine.folder / 'worker.log').read_text()[-3000:]}"
        time.sleep(0.1)
    return now


@pytest.mark.timeout(600)
def test_a_killed_worker_loses_no_draft_and_a_stop_reaches_the_next_one(machine):
    call(machine, "begin")
    machine.start_worker()
    wait_for(machine, "running", 1, True)
    machine.kill_worker()
    assert told(machine)[:2] == ("running", 1)
    call(machine, "lose")
    assert told(machine)[:2] == ("queued", 1)
    machine.start_worker()
    wait_for(machine, "running", 2, True)
    call(machine, "stop")
    # The best week so far is kept.
    assert wait_for(machine, "done", 2)[-1] == 5


def states(machine: Machine) -> list[str]:
    with psycopg.connect(machine.database) as connection:
        return [state for (state,) in connection.execute("SELECT state FROM programs_draftrun ORDER BY id")]


@pytest.mark.timeout(600)
def test_no_recompute_waits_behind_drafts(machine):
    call(machine, "begin_several")
    machine.start_worker("celery")
    machine.until(lambda count: count == 0)
    # This worker leaves them alone, and they are taken by the one that is there for them.
    assert states(machine) == ["queued"] * 3
    machine.start_worker("long")
    end = time.monotonic() + PATIENCE_S
    while "running" not in states(machine):
        assert time.monotonic() < end, (machine.folder / "worker.log").read_text()[-3000:]
        time.sleep(0.1)
