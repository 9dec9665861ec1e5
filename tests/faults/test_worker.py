"""The worker may die at any line, and the broker may forget: the rows are those of a clean rebuild."""

import pytest

from scripts.services import private_redis
from tests.faults.machine import Machine
from tests.faults.scene import CLIENTS

pytestmark = pytest.mark.services


@pytest.fixture
def machine(tmp_path, migrated_database, redis_url):
    made = Machine(tmp_path, migrated_database, redis_url)
    yield made
    made.stop()


@pytest.mark.timeout(600)
def test_a_worker_killed_during_200_recomputes_loses_and_doubles_nothing(machine):
    machine.call("arrange_and_queue")
    machine.start_worker()
    left = machine.until(lambda count: count < 0.75 * CLIENTS)
    machine.kill_worker()
    assert 0 < machine.waiting() <= left
    machine.start_worker()
    # What it had taken from the broker and not noted yet when it died is in no queue any more: the sweep finds it.
    machine.until(lambda count: count <= 2)
    machine.sweep_until(lambda count: count == 0)
    # Clients nobody logged for have rows by the nightly roll-over only.
    machine.call("sweep_now")
    machine.until(lambda count: count == 0)
    machine.stop()
    # Three weeks for each, and this week's for those of the tests' world.
    assert machine.call("compare") == f"{3 * CLIENTS + 3} weeks, same rows"


@pytest.mark.timeout(600)
def test_the_sweep_finds_what_a_lost_broker_dropped(machine, tmp_path, migrated_database):
    """The broker stops with every message in it; requests made meanwhile are not lost either, nor do they wait long."""
    with private_redis() as lost:
        before = Machine(tmp_path, migrated_database, lost)
        before.call("arrange_and_queue")
    assert before.call("dispatch_one") == "left soon"
    assert machine.waiting() == CLIENTS
    machine.start_worker()
    assert int(machine.call("sweep_now")) >= CLIENTS
    machine.until(lambda count: count == 0)
