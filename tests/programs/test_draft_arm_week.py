"""The arm week of common practice, asked for on the form, drafted from the library, and made a program."""

import pytest
from django.urls import reverse

from programs.models import DraftRun, HeadCredit, MuscleGroup
from programs.services.draft_program import draft_make_program
from programs.services.draft_work import draft_work_off

pytestmark = pytest.mark.django_db
ARMS = ("biceps", "triceps")


@pytest.fixture
def week(client, world, library):
    """Two days, three and two exercises a muscle, 8-12 repetitions at 1-2 RIR, 18 sets, every head, one long."""
    client.force_login(world.coach)
    fields = {
        "name": "Arms", "status": "advanced", "minutes-0": "80", "minutes-3": "65",
        "slots_per_day": "10", "sets": "2-4", "session_cap": "12", "equipment_choice": "all",
        "seconds": "20", "seed": "0",
        "reps_compound": "8-12", "rir_compound": "1-2", "reps_single": "8-12", "rir_single": "1-2",
        **{f"priority-{slug}": "out" for slug in MuscleGroup.objects.values_list("slug", flat=True)},
    }  # fmt: skip
    for muscle in ARMS:
        fields |= {
            f"priority-{muscle}": "focus", f"floor-{muscle}": "18", f"ceiling-{muscle}": "20",
            f"exercises-{muscle}": "3, 2", f"floor_must-{muscle}": "on", f"heads_must-{muscle}": "on",
            f"long_must-{muscle}": "on",
        }  # fmt: skip
    response = client.post(reverse("draft-new"), fields)
    assert response.status_code == 302
    run = DraftRun.objects.get()
    draft_work_off(run.pk)
    run.refresh_from_db()
    return run


def test_the_arm_week_is_what_was_asked_for(week, world):
    assert week.state == DraftRun.State.DONE
    assert all(18 <= group["sets"] <= 20 for group in week.result["groups"])
    assert all(head["direct"] for head in week.result["heads"])
    assert {head["group"] for head in week.result["heads"] if head["long"]} == set(ARMS)
    program = draft_make_program(run=week, author=world.coach)
    days = program.document["blocks"][0]["weeks"][0]["days"]
    for muscle in ARMS:
        direct = set(HeadCredit.objects.filter(credit=1, head__group__slug=muscle).values_list("exercise", flat=True))
        assert [sum(slot["exercise"] in direct for slot in day["slots"]) for day in days] == [3, 2]
    assert all(slot["reps"] == [8, 12] for day in days for slot in day["slots"])
    # Exercises that end badly near failure keep one more in reserve.
    assert {tuple(slot["rir"]) for day in days for slot in day["slots"]} <= {(1, 2), (2, 3)}
