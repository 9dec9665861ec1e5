"""A difference is taken back on what is to come, and on nothing that was logged, changed by a decision, or closed."""

import datetime as dt

import pytest
from django.urls import reverse
from django.utils import timezone

from logbook.models import Session
from programs.document.adapt import Change
from programs.document.edits import Operation
from programs.models import Adaptation, ClientLimit, PlannedSlot
from programs.services.adaptation_undo import AdaptationError, adaptation_undo
from programs.services.adaptations import Adapted
from programs.services.assignment_make import program_assign
from programs.services.program_write import program_edit
from tests.programs.factories import make_library, make_program


@pytest.fixture
def library(db):
    return make_library()


@pytest.fixture
def plan(world, library):
    """Two weeks from the coming Monday: the curl is a hammer curl for this client, everything one easier."""
    program = make_program(world, library, weeks=2)
    today = world.client.user.today()
    monday = today + dt.timedelta(days=7 - today.weekday())
    changes = [
        Adapted(Change("swap", library.curl.pk, library.hammer.pk), "fit_equipment", {"equipment": "bar"}),
        Adapted(Change("rir", rir=1), "fit_status_rir"),
        Adapted(Change("leave-out", library.row.pk), "fit_equipment_out", {"equipment": "bar"}),
        Adapted(Change("start", library.press.pk, load_kg=30.0), "fit_start", {"e1rm": 50, "days": 3, "margin": 5}),
    ]
    [made] = program_assign(
        program=program, clients=[world.client], starts_on=monday, weekdays=[0, 3], assigned_by=world.coach,
        adaptations={world.client.pk: changes},
    )  # fmt: skip
    return made


def row(plan, kind):
    return Adaptation.objects.get(assignment=plan, kind=kind)


def undo(world, plan, kind):
    return adaptation_undo(adaptation=row(plan, kind), user=world.coach)


def shown(plan):
    return [
        [(slot.exercise.name, slot.rir_min, slot.start_load_kg) for slot in session.slots.select_related("exercise")]
        for session in plan.sessions.filter(cancelled_at=None)
    ]


def test_only_that_difference_goes(world, plan):
    assert undo(world, plan, "swap") == 2
    assert shown(plan) == [
        [("Wand curl", 2, None), ("Overhead wand press-down", 2, 30.0)],
        [("Wand curl", 2, None), ("Overhead wand press-down", 2, None)],
    ]
    kept = row(plan, "swap")
    assert (kept.undone_by, kept.undone_at is not None) == (world.coach, True)


def test_a_day_that_was_left_out_comes_back_on_its_weekday(world, plan):
    assert undo(world, plan, "leave-out") == 2
    assert [s.date.weekday() for s in plan.sessions.order_by("date")] == [0, 3, 0, 3]
    assert ("Slow row", 2, None) in shown(plan)[1] + shown(plan)[2] + shown(plan)[3]


def test_a_starting_load_is_taken_off(world, plan):
    undo(world, plan, "start")
    assert not PlannedSlot.objects.filter(start_load_kg__isnull=False).exists()


def test_what_is_begun_stays_as_it_was(world, plan):
    first, _second = plan.sessions.order_by("date")
    Session.objects.create(client=world.client, planned=first, date=first.date, started_at=timezone.now())
    assert undo(world, plan, "rir") == 1
    assert [slots[0][1] for slots in shown(plan)] == [2, 1]


def test_what_a_decision_changed_for_the_client_stays(world, plan):
    slot = PlannedSlot.objects.filter(session__assignment=plan).order_by("session__date", "position").first()
    slot.sets = 1
    slot.save()
    undo(world, plan, "swap")
    slot.refresh_from_db()
    assert (slot.sets, slot.exercise.name) == (1, "Hammer grip curl")


def test_it_is_not_undone_twice_nor_into_what_is_closed(world, plan, library):
    limit = ClientLimit.objects.create(
        client=world.client, exercise=library.curl, since=dt.date(2026, 1, 1), told_by=world.coach
    )
    with pytest.raises(AdaptationError, match="Wand curl"):
        undo(world, plan, "swap")
    assert row(plan, "swap").undone_at is None
    limit.delete()
    undo(world, plan, "swap")
    with pytest.raises(AdaptationError, match="already"):
        undo(world, plan, "swap")


def test_after_an_edit_of_the_program_the_copy_goes_back_to_the_version_it_follows(world, plan, library):
    program = plan.program
    key = program.document["blocks"][0]["weeks"][0]["days"][0]["slots"][1]["key"]
    program_edit(
        program=program, base_version=program.version, user=world.coach,
        operation=Operation("swap", {"slot": key, "exercise": library.push.pk}),
    )  # fmt: skip
    undo(world, plan, "swap")
    assert [name for name, _rir, _start in shown(plan)[0]] == ["Wand curl", "Overhead wand press-down"]


def test_the_coach_undoes_it_on_the_page_and_it_is_struck_out(client, world, plan):
    client.force_login(world.coach)
    address = reverse("assignment-detail", args=[plan.pk])
    assert "Hammer grip curl instead of Wand curl" in client.get(address).content.decode()
    assert client.post(reverse("adaptation-undo", args=[row(plan, "swap").pk])).url == address
    text = client.get(address).content.decode()
    assert "<s>Hammer grip curl instead of Wand curl</s>" in text
    assert "Undone by Carla" in text
    again = client.post(reverse("adaptation-undo", args=[row(plan, "swap").pk]), follow=True)
    assert "undone already" in again.content.decode()


def test_the_phone_says_why_until_it_is_undone(client, world, plan):
    client.force_login(world.client.user)
    first = plan.sessions.order_by("date").first()
    address = reverse("planned-session", args=[first.pk])
    text = client.get(address).content.decode()
    assert "Hammer grip curl instead of Wand curl. Not at hand: bar." in text
    assert "Overhead wand press-down begins with 30 kg." in text
    undo(world, plan, "swap")
    assert "Not at hand: bar." not in client.get(address).content.decode()
