"""What if: changes are tried in a scratch copy, then kept as one revision or dropped without a trace."""

import pytest
from django.urls import reverse

from accounts.models import AuditEntry
from programs.models import TrialStep
from tests.programs.factories import make_library, make_program

HTMX = {"HX-Request": "true"}


@pytest.fixture
def library(db):
    return make_library()


@pytest.fixture
def program(world, library, client):
    client.force_login(world.coach)
    return make_program(world, library, weeks=2)


def send(client, program, do, trial=None, version=None, headers=HTMX, **fields):
    program.refresh_from_db()
    data = {"do": do, "base_version": version or program.version, "week": "w1", **fields}
    if trial is not None:
        data["trial"] = trial
    return client.post(reverse("program-change", args=[program.pk]), data, headers=headers)


def page(client, program):
    return client.get(reverse("program-editor", args=[program.pk]), {"week": "w1"})


def sets(program):
    program.refresh_from_db()
    return program.document["blocks"][0]["weeks"][0]["days"][0]["slots"][0]["sets"]


def tried(client, program, *changes):
    """Begin to try, and make these changes one after the other."""
    send(client, program, "try")
    for step, change in enumerate(changes):
        assert send(client, program, change, trial=step).status_code == 200
    return len(changes)


MORE = "prescribe;slot=w1s1;sets=6"


def test_what_is_tried_is_shown_with_its_difference_and_not_saved(client, program):
    tried(client, program, MORE)
    text = page(client, program).content.decode()
    assert sets(program) == 3
    assert program.revisions.count() == 1
    assert "version 1 stays" in text
    difference = page(client, program).context["difference"]
    assert [(one.kind, one.name, one.before, one.after) for one in difference.changes][:2] == [
        ("group", "biceps", 5, 8),
        ("sets", "Day 1", 6, 9),
    ]


def test_dropping_leaves_no_trace(client, program):
    before = dict(program.document)
    step = tried(client, program, MORE, "remove;key=w1s2")
    send(client, program, "drop", trial=step)
    program.refresh_from_db()
    assert program.document == before
    assert (program.version, program.revisions.count(), TrialStep.objects.count()) == (1, 1, 0)
    assert page(client, program).context["trial"] is None


def test_keeping_is_one_revision_that_one_undo_takes_back(client, program):
    step = tried(client, program, MORE, "remove;key=w1s2")
    send(client, program, "keep", trial=step)
    assert sets(program) == 6
    assert program.version == 2
    assert program.revisions.first().summary.startswith("Kept what was tried: Wand curl")
    assert not TrialStep.objects.exists()
    send(client, program, "undo")
    assert sets(program) == 3


def test_a_trial_survives_a_reload_and_belongs_to_one_person(client, world, program):
    tried(client, program, MORE)
    assert page(client, program).context["trial"].step == 1
    client.force_login(world.owner)
    assert page(client, program).context["trial"] is None
    client.force_login(world.colleague)
    assert page(client, program).context["trial"] is None


def test_undo_and_redo_walk_the_steps_of_the_trial(client, program):
    tried(client, program, MORE, "prescribe;slot=w1s1;sets=7")
    send(client, program, "undo", trial=2)
    trial = page(client, program).context["trial"]
    assert (trial.step, trial.undo, trial.redo) == (1, True, True)
    send(client, program, "redo", trial=1)
    send(client, program, "undo", trial=2)
    send(client, program, "undo", trial=1)
    assert send(client, program, "undo", trial=0).status_code == 422
    send(client, program, "prescribe;slot=w1s1;sets=5", trial=0)
    trial = page(client, program).context["trial"]
    assert (trial.step, trial.redo) == (1, False)
    assert trial.document["blocks"][0]["weeks"][0]["days"][0]["slots"][0]["sets"] == 5


def test_a_mistake_is_said_and_changes_nothing(client, program):
    tried(client, program)
    reply = send(client, program, "prescribe;slot=w1s1", trial=0, text="3 x lots")
    assert reply.status_code == 422
    assert page(client, program).context["trial"].step == 0


def test_another_window_of_the_trial_is_told(client, program):
    tried(client, program, MORE)
    reply = send(client, program, "remove;key=w1s1", trial=0)
    assert (reply.status_code, "another window" in reply.json()["message"]) == (422, True)
    send(client, program, "drop", trial=1)
    reply = send(client, program, "remove;key=w1s1", trial=1)
    assert (reply.status_code, "kept or dropped" in reply.json()["message"]) == (422, True)


def test_keeping_over_a_version_saved_in_between_asks_first(client, world, program):
    step = tried(client, program, MORE)
    client.force_login(world.owner)
    send(client, program, "remove;key=w1s2")
    client.force_login(world.coach)
    reply = send(client, program, "keep", trial=step)
    text = reply.content.decode()
    assert reply.status_code == 409
    assert "Olive" in text
    assert "Keep what I tried over the newer version" in text
    assert sets(program) == 3
    send(client, program, "keep;over=yes", trial=step)
    assert sets(program) == 6
    assert program.version == 3


def test_a_trial_that_changes_nothing_is_kept_without_a_revision(client, program):
    tried(client, program)
    send(client, program, "keep", trial=0)
    program.refresh_from_db()
    assert (program.version, TrialStep.objects.count()) == (1, 0)


def test_the_weeks_page_shows_what_is_tried(client, program):
    tried(client, program, MORE)
    reply = client.get(reverse("program-weeks", args=[program.pk]))
    assert "Version 1 stays" in reply.content.decode()
    ramp = {"page": "weeks", "block": "b1", "weeks": "3", "deload": "yes", "every.rir": "3-1"}
    send(client, program, "ramp;block=b1", trial=1, headers=None, **ramp)
    program.refresh_from_db()
    assert "ramp" not in program.document["blocks"][0]
    assert "ramp" in page(client, program).context["trial"].document["blocks"][0]
    also = page(client, program).context["also"]
    assert also == ["Block 1, week 2", "Block 1, base week (new)", "Block 1, week 3 (new)"]


def test_without_a_script_a_trial_is_begun_and_ended_too(client, program):
    assert send(client, program, "try", headers=None).status_code == 302
    assert send(client, program, MORE, trial=0, headers=None).status_code == 302
    assert send(client, program, "keep", trial=1, headers=None).status_code == 302
    assert sets(program) == 6


def test_the_page_costs_the_same_after_few_and_many_steps(client, program, django_assert_num_queries):
    tried(client, program, MORE)
    # session, user, membership, program, may it be written; trial and its document; exercises, credits, groups, heads;
    # exercises to propose, their credits
    with django_assert_num_queries(14):
        page(client, program)
    for step in range(1, 9):
        send(client, program, f"prescribe;slot=w1s1;sets={step}", trial=step)
    with django_assert_num_queries(14):
        page(client, program)


def changes():
    return list(AuditEntry.objects.filter(kind="changed").values_list("page", flat=True))


def test_the_audit_names_a_change_only_when_what_was_tried_is_kept(client, program):
    step = tried(client, program, MORE, "remove;key=w1s2")
    assert changes() == []
    send(client, program, "keep", trial=step)
    assert changes() == ["program-change"]


def test_dropping_what_was_tried_is_no_change_for_the_audit(client, program):
    send(client, program, "drop", trial=tried(client, program, MORE))
    assert changes() == []
