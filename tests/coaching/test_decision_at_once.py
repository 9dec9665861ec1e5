"""Two coaches answer one question at the same moment: the first has decided, and the second is told."""

import threading

import pytest
from django.db import connection

from coaching.models import Decision, Prompt
from coaching.recompute import run
from coaching.services.conflict import Conflict
from coaching.services.decision import decision_accept, digest
from tests.coaching import factories as make


@pytest.mark.django_db(transaction=True)
def test_of_two_coaches_at_once_one_wins_and_the_other_is_told(world, exercises):
    make.train(world.client, world.coach, exercises, weeks=12, fade=2, seed=3)
    run.work_off(world.client.pk)
    prompt = Prompt.objects.get(client=world.client, week=make.monday(1), kind="deload")
    outcomes = []
    together = threading.Barrier(2)

    def answer(coach):
        try:
            together.wait(10)
            decision_accept(prompt=prompt, coach=coach, reason="Three bad weeks.", seen=digest(prompt.proposal))
            outcomes.append("won")
        except Conflict as conflict:
            outcomes.append(conflict.code)
        finally:
            connection.close()

    threads = [threading.Thread(target=answer, args=(coach,)) for coach in (world.coach, world.owner)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    assert sorted(outcomes) in (["decided", "won"], ["gone", "won"])
    assert Decision.objects.count() == 1
