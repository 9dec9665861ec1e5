"""A set arrives while a revision is brought: it lands on the plan that its client saw."""

from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest
from django.db import connection, connections
from django.utils import timezone

from logbook.models import SetLog
from logbook.services.operations import operation_apply
from logbook.services.sessions import session_id_for
from tests.logbook.factories import op, set_data
from tests.programs.revision_fixture import make_gym, rows_of


@pytest.fixture
def gym(transactional_db):
    if connection.vendor == "sqlite" and "memory" in str(connection.settings_dict["NAME"]):
        pytest.skip("an in-memory SQLite has one connection; scripts/test runs this on PostgreSQL")
    from tests.conftest import make_world

    return make_gym(make_world(), weeks=6)


def together(*jobs):
    ready = Barrier(len(jobs))

    def run(job):
        try:
            ready.wait()
            return job()
        finally:
            connections.close_all()

    with ThreadPoolExecutor(len(jobs)) as threads:
        return list(threads.map(run, jobs))


@pytest.mark.parametrize("week", [2, 3, 4, 5, 6])
def test_a_set_never_lands_on_a_row_that_changed_since_it_was_begun(gym, week):
    planned = gym.session(f"w{week}d1")
    row = planned.slots.first()
    old = rows_of(gym.assignment)[planned.pk]
    for number in range(2, 7):
        gym.edit("prescribe", slot=f"w{number}s1", sets="5")
        gym.edit("swap", slot=f"w{number}s2", exercise=gym.library.push.pk)
    began = timezone.now()

    def train():
        session = session_id_for(planned.pk)
        start = op("session.start", began, None, session=session, planned=planned.pk)
        operation_apply(client=gym.client, operation=start, now=timezone.now())
        done = op("set.record", began, None, **set_data(session, row.exercise, slot=row.pk))
        operation_apply(client=gym.client, operation=done, now=timezone.now())

    together(train, gym.bring)
    assert rows_of(gym.assignment)[planned.pk] == old
    assert SetLog.objects.get().slot == row
    others = gym.assignment.sessions.filter(date__gte=gym.today, day_key__endswith="d1").exclude(pk=planned.pk)
    assert {one.slots.first().sets for one in others} == {5}
