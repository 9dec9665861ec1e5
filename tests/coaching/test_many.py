"""Many questions of one kind: the sums before, each for itself, and what came of each after."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from accounts.models import Client, Engagement, User
from coaching.models import Decision, Prompt
from coaching.recompute import run
from coaching.services.decision import decision_refuse, digest
from programs.models import PlannedSession
from tests.coaching import factories as make
from tests.coaching.once import once

pytestmark = pytest.mark.django_db
MANY = reverse("answer-many")


def train(world, exercises):
    """Give `coach` two clients who are each asked for a deload."""
    user = User.objects.create_user(email="dora@example.org", name="Dora")
    dora = Client.objects.create(practice=world.practice, user=user)
    Engagement.objects.create(coach=world.coach_membership, client=dora, started_on=make.monday(20))
    for client in (world.client, dora):
        make.train(client, world.coach, exercises, weeks=12, fade=2, seed=3)
        run.work_off(client.pk)


made, copied, world, exercises = once(train)


@pytest.fixture
def two(world):
    """The two questions."""
    return list(Prompt.objects.filter(kind="deload", week=make.monday(1)).order_by("client__user__name"))


def chosen(prompts):
    return {"kind": "deload", "prompt": [str(one.pk) for one in prompts]}


def seen(prompts):
    return chosen(prompts) | {f"{one.pk}-seen": digest(one.proposal) for one in prompts}


def test_the_list_says_what_the_chosen_add_up_to(client, world, two):
    client.force_login(world.coach)
    many = client.get(MANY, chosen(two)).context["many"]
    assert [row.prompt for row in many.rows] == two
    assert many.sets[1] < many.sets[0] == sum(prompt.proposal["sets"][0] for prompt in two)
    assert many.sessions == 6


def test_the_list_costs_the_same_for_one_and_for_two(client, world, two):
    client.force_login(world.coach)
    counts = []
    for prompts in (two[:1], two):
        with CaptureQueriesContext(connection) as found:
            client.get(MANY, chosen(prompts))
        counts.append(len(found))
    assert counts[0] == counts[1] <= 8


def test_all_chosen_are_accepted_and_each_can_be_taken_back(client, world, two):
    client.force_login(world.coach)
    html = client.post(MANY, seen(two) | {"reason": "All tired."}).text
    assert set(Decision.objects.values_list("prompt_id", "reason")) == {(one.pk, "All tired.") for one in two}
    assert PlannedSession.objects.filter(is_deload=True).values("client").distinct().count() == 2
    for decision in Decision.objects.all():
        assert reverse("decision-undo", args=[decision.pk]) in html
    client.post(reverse("decision-undo", args=[Decision.objects.earliest("pk").pk]))
    assert Decision.objects.filter(undone_at=None).count() == 1


def test_one_that_has_changed_since_is_not_done_and_says_so_while_the_other_is(client, world, two):
    client.force_login(world.coach)
    data = seen(two)
    two[0].proposal |= {"sets_share": 0.4}
    two[0].save()
    page = client.post(MANY, data)
    assert [bool(one.decision) for one in page.context["outcomes"]] == [False, True]
    assert "has changed since this page was opened" in page.text


def test_what_one_wants_otherwise_goes_for_that_client_alone(client, world, two):
    client.force_login(world.coach)
    client.post(MANY, seen(two) | {f"{two[0].pk}-rir_up": "1"})
    ups = [Decision.objects.get(prompt_id=one.pk).proposal["rir_up"] for one in two]
    assert ups == [1, two[1].proposal["rir_up"]]


def test_nonsense_in_a_field_does_nothing_and_is_said_beside_it(client, world, two):
    client.force_login(world.coach)
    page = client.post(MANY, seen(two) | {f"{two[0].pk}-rir_up": "many"})
    assert page.status_code == 422
    assert "Enter a whole number" in page.text
    assert not Decision.objects.exists()


def test_answered_foreign_and_senseless_choices_are_left_out(client, world, two):
    decision_refuse(prompt=two[0], coach=world.coach, reason="No.")
    client.force_login(world.coach)
    asked = chosen(two) | {"prompt": ["x", *(str(one.pk) for one in two)]}
    assert [row.prompt for row in client.get(MANY, asked).context["many"].rows] == [two[1]]
    client.force_login(world.colleague)
    assert client.get(MANY, asked).url == reverse("board")
    assert client.post(MANY, seen(two)).url == reverse("board")
    assert Decision.objects.count() == 1
