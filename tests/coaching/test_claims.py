"""A row that a decision wrote is known as such while the decision stands."""

import uuid

import pytest
from django.utils import timezone

from coaching.models import Decision
from coaching.reads.claims import decision_claims
from programs.services.revision_claims import claims_on
from tests.programs.revision_fixture import make_gym


@pytest.fixture
def gym(world):
    return make_gym(world)


def decide(gym, slot, **fields):
    known = {"kind": "deload", "week": gym.today, "answer": "accept", "proposal": {}, "changes": [{"slot": slot}]}
    return Decision.objects.create(prompt_id=uuid.uuid4(), client=gym.client, coach=gym.coach, **known | fields)


def test_a_standing_decision_is_named_and_one_taken_back_is_not(gym):
    first, second = gym.session("w2d1").slots.values_list("pk", flat=True)
    decide(gym, first)
    decide(gym, second, undone_at=timezone.now())
    claims = decision_claims([gym.client.pk])
    assert set(claims) == {first}
    assert "Carla" in claims[first]
    assert decision_claims([gym.other_client.pk]) == {}


def test_the_rooms_below_ask_without_knowing_the_desk(gym):
    row = gym.session("w2d1").slots.first().pk
    decide(gym, row)
    assert row in claims_on([gym.client.pk])
