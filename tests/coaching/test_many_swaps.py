"""Many exercises exchanged at once: each for itself, at the cost of a few."""

import uuid

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from accounts.models import Client, Engagement, User
from coaching.models import Decision, Prompt
from coaching.services.decision import digest
from logbook.models import RecomputeRequest
from programs.models import ExerciseLink, PlannedSlot
from tests.coaching import factories as make

pytestmark = pytest.mark.django_db
MANY = reverse("answer-many")
NEXT = make.monday(-1)


@pytest.fixture
def hurting(world, exercises):
    """Thirty clients of `coach`, each asked to exchange the curl in two sessions of next week."""
    ExerciseLink.objects.create(exercise=exercises["curl"], other=exercises["pull-up"], kind="substitute")
    users = User.objects.bulk_create(User(email=f"c{n}@example.org", name=f"Client {n:02}") for n in range(30))
    clients = Client.objects.bulk_create(Client(practice=world.practice, user=user) for user in users)
    Engagement.objects.bulk_create(
        Engagement(coach=world.coach_membership, client=client, started_on=make.monday(20)) for client in clients
    )
    return [_prompt(client, world, exercises["curl"]) for client in clients]


def _prompt(client, world, curl):
    assignment = make.make_assignment(client, world.coach, NEXT)
    slots = []
    for later in (0, 2):
        day = NEXT + make.dt.timedelta(days=later)
        slot = make.make_day(assignment, day, [(curl, 3)]).slots.get()
        same = {"sets": [3, 3], "rir_min": [1, 1], "rir_max": [3, 3], "load_kg": [None, None]}
        slots.append(
            {"slot": slot.pk, "session": slot.session_id, "date": day.isoformat(), "exercise": curl.pk, **same}
        )
    proposal = {
        "week": NEXT.isoformat(), "kind": "swap", "sets": [6, 6], "slots": slots,
        "exercise": curl.pk, "site": "elbow", "cause": "pain",
    }  # fmt: skip
    return Prompt.objects.create(
        id=uuid.uuid4(), client=client, week=make.monday(), last_date=NEXT + make.dt.timedelta(days=2), kind="swap",
        rule_id="question.swap", rule_version=2, reasons=[], proposal=proposal, inputs={"kind": "swap", "evidence": []},
    )  # fmt: skip


def data(prompts, instead):
    chosen = {"kind": "swap", "prompt": [str(one.pk) for one in prompts]}
    for one in prompts:
        chosen |= {f"{one.pk}-seen": digest(one.proposal), f"{one.pk}-to_exercise": instead.pk}
    return chosen


def queries(run):
    with CaptureQueriesContext(connection) as found:
        assert run().status_code == 200
    return len(found)


def test_thirty_cost_what_five_cost(client, world, exercises, hurting, django_capture_on_commit_callbacks):
    """Listed, and decided: the door, the questions, the ways out, one lock, one write for all, one request each."""
    client.force_login(world.coach)
    few, many = hurting[:5], hurting[5:] + hurting[:5]
    listed = [queries(lambda n=n: client.get(MANY, data(n, exercises["pull-up"]))) for n in (few, many)]
    assert listed[0] == listed[1] <= 24
    decided = [queries(lambda n=n: client.post(MANY, data(n, exercises["pull-up"]))) for n in (few, hurting[5:])]
    assert Decision.objects.count() == 30
    assert decided[1] <= decided[0] + 2, "rows are written in batches of what one statement of SQLite can hold"
    assert decided[0] <= 40
    assert set(PlannedSlot.objects.values_list("exercise", flat=True)) == {exercises["pull-up"].pk}
    assert RecomputeRequest.objects.values("client").distinct().count() == 30


def test_one_that_was_changed_since_leaves_the_others_done(client, world, exercises, hurting):
    PlannedSlot.objects.filter(pk=hurting[1].proposal["slots"][1]["slot"]).update(sets=5)
    client.force_login(world.coach)
    page = client.post(MANY, data(hurting[:3], exercises["pull-up"]))
    assert [bool(one.decision) for one in page.context["outcomes"]] == [True, False, True]
    left = PlannedSlot.objects.filter(session__client=hurting[1].client)
    assert set(left.values_list("exercise", flat=True)) == {exercises["curl"].pk}, "nothing of it is half done"


def test_each_can_be_taken_back_alone(client, world, exercises, hurting):
    client.force_login(world.coach)
    client.post(MANY, data(hurting[:2], exercises["pull-up"]))
    client.post(reverse("decision-undo", args=[Decision.objects.get(prompt_id=hurting[0].pk).pk]))
    names = [
        PlannedSlot.objects.filter(session__client=one.client).values_list("exercise__slug", flat=True).distinct().get()
        for one in hurting[:2]
    ]
    assert names == ["curl", "pull-up"]
