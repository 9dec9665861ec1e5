"""A session has one length: in the draft, the editor, the weeks side by side, the fitting, and on the phone."""

import datetime as dt

import pytest
from django.urls import reverse

from logbook.reads.today import card
from periodization.duration import whole_minutes
from programs.models import PlannedSession
from programs.services.assignment_make import program_assign
from programs.services.draft_ask import AskedTarget
from programs.services.draft_program import draft_make_program
from programs.services.draft_work import draft_work_off
from programs.services.fitting import fitting_begin
from programs.services.program_write import program_create
from tests.programs.draft_helpers import small_ask, start
from tests.programs.factories import document, make_library, slot

pytestmark = pytest.mark.django_db
MONDAY = dt.date(2027, 3, 1)


@pytest.fixture(params=[False, True], ids=["alone", "paired"])
def drafted(request, world):
    """One exercise is done one side at a time, one is held: both take their own time."""
    library = make_library()
    type(library.hammer).objects.filter(pk=library.hammer.pk).update(laterality="alternating")
    type(library.press).objects.filter(pk=library.press.pk).update(rep_unit="seconds")
    # More sets than one day may hold, so that both days are trained.
    targets = {"biceps": AskedTarget(6, 8, floor_must=True), "triceps": AskedTarget(6, 8, floor_must=True)}
    run = start(world, small_ask(pairs=request.param, session_cap=4.0, targets=targets))
    draft_work_off(run.pk)
    run.refresh_from_db()
    return run


def test_every_page_says_the_same_minutes(client, world, drafted):
    client.force_login(world.coach)
    drawn = client.get(reverse("draft-detail", args=[drafted.pk])).content.decode()
    asked = [whole_minutes(day["minutes"]) for day in drafted.result["days"]]
    assert all(f"{minutes} of 45 min" in drawn for minutes in asked)

    program = draft_make_program(run=drafted, author=world.coach)
    editor = client.get(reverse("program-editor", args=[program.pk]))
    assert [day.minutes for day in editor.context["days"]] == asked
    weeks = client.get(reverse("program-weeks", args=[program.pk]))
    assert [day.minutes for day in weeks.context["table"].days] == [[minutes] for minutes in asked]

    fitting = fitting_begin(
        program=program, clients=[world.client], starts_on=MONDAY, weekdays=[0, 3], end_running=False,
        author=world.coach,
    )  # fmt: skip
    row = client.get(reverse("fitting", args=[fitting.pk])).context["rows"][0]
    assert whole_minutes(row.effect.minutes[0]) == max(asked)

    program_assign(program=program, clients=[world.client], starts_on=MONDAY, weekdays=[0, 3], assigned_by=world.coach)
    rows = PlannedSession.objects.filter(client=world.client).order_by("date").prefetch_related("slots__exercise")
    assert [card(row)["minutes"] for row in rows] == asked
    assert all(asked)


def test_a_tempo_takes_as_long_on_the_phone_as_on_the_desk(client, world):
    client.force_login(world.coach)
    library = make_library()
    lengths = []
    for tempo in ("", "5-2-1-2"):
        slots = [slot("a", library.curl.pk, tempo=tempo), slot("b", library.press.pk)]
        program = program_create(
            practice=world.practice, author=world.coach, name=f"Slow {tempo}", document=document(slots)
        )
        editor = client.get(reverse("program-editor", args=[program.pk])).context["days"][0].minutes
        plan = program_assign(
            program=program, clients=[world.client], starts_on=MONDAY, weekdays=[0], assigned_by=world.coach
        )[0]
        assert card(plan.sessions.prefetch_related("slots__exercise").get())["minutes"] == editor
        lengths.append(editor)
    assert lengths[0] < lengths[1]
