"""What fitting again writes: on open sessions alone, recorded, and never over what changed meanwhile."""

import datetime as dt

import pytest
from django.urls import reverse
from django.utils import timezone

from logbook.services.operations import operation_apply
from logbook.services.sessions import session_id_for
from programs.document.adapt import Change
from programs.models import Adaptation, ClientLimit, PlannedSlot
from programs.services.adaptation_undo import adaptation_undo
from programs.services.adaptations import Adapted
from programs.services.copy_rewrite import CopyError
from programs.services.fit_again import copy_fit_again
from programs.services.fit_since import open_rows, since_fitted, with_closed
from tests.logbook.factories import op
from tests.programs.revision_fixture import begin, log_set, make_gym, rows_of


@pytest.fixture
def gym(world):
    return make_gym(world)


def fit(gym, *changes, back=(), **more):
    gym.assignment.refresh_from_db()
    standing = list(gym.assignment.adaptations.filter(undone_at=None).values_list("pk", flat=True))
    return copy_fit_again(
        **{
            "assignment": gym.assignment, "version": gym.assignment.program_version, "standing": standing,
            "adapted": [Adapted(one, "fit_equipment", {"equipment": "bar"}) for one in changes], "back": back,
            "by": gym.coach, **more,
        }
    )  # fmt: skip


def swap(gym, **more):
    return Change("swap", gym.library.curl.pk, gym.library.hammer.pk, **more)


def curls(gym):
    rows = PlannedSlot.objects.filter(session__assignment=gym.assignment, session__cancelled_at=None)
    return [row.exercise.name for row in rows.filter(slot_key__endswith="s1").order_by("session__date")]


def keep_from(gym, exercise):
    return ClientLimit.objects.create(client=gym.client, exercise=exercise, since=gym.today, told_by=gym.coach)


def test_it_is_recorded_and_reaches_what_is_to_come(gym):
    before = rows_of(gym.assignment)
    done = fit(gym, swap(gym))
    assert (done.sessions, done.added, done.back) == (3, 1, 0)
    row = Adaptation.objects.get()
    assert (row.kind, row.exercise, row.to_exercise, row.created_by, row.reason) == (
        "swap", gym.library.curl, gym.library.hammer, gym.coach, "fit_equipment",
    )  # fmt: skip
    past = gym.assignment.sessions.filter(date__lt=gym.today).values_list("pk", flat=True)
    after = rows_of(gym.assignment)
    assert {pk: after[pk] for pk in past} == {pk: before[pk] for pk in past}
    assert curls(gym) == ["Wand curl", *["Hammer grip curl"] * 3]


def test_a_logged_and_a_running_session_stay(gym):
    today, later = gym.session("w2d1"), gym.session("w3d1")
    log_set(begin(today, finished=True), today.slots.first())
    begin(later)
    fit(gym, swap(gym))
    assert curls(gym) == ["Wand curl", "Wand curl", "Wand curl", "Hammer grip curl"]


def test_one_takes_the_place_of_another(gym):
    fit(gym, swap(gym))
    old = Adaptation.objects.get()
    fit(gym, Change("swap", gym.library.curl.pk, gym.library.press.pk), back=[old.pk])
    old.refresh_from_db()
    assert (old.undone_by, Adaptation.objects.filter(undone_at=None).count()) == (gym.coach, 1)
    assert curls(gym)[1:] == ["Overhead wand press-down"] * 3


def test_a_day_of_which_nothing_is_left_is_cancelled_and_comes_back(gym):
    days = set(gym.assignment.sessions.values_list("date", flat=True))
    rest = [slot.exercise_id for slot in gym.session("w2d2").slots.all()]
    fit(gym, *[Change("leave-out", pk) for pk in rest])
    assert gym.session("w3d2").cancelled_at is not None
    for row in Adaptation.objects.all():
        adaptation_undo(adaptation=row, user=gym.coach)
    assert gym.session("w3d2").cancelled_at is None
    assert {slot.exercise_id for slot in gym.session("w3d2").slots.all()} == set(rest)
    assert set(gym.assignment.sessions.filter(cancelled_at=None).values_list("date", flat=True)) == days


def test_a_decision_stays_where_its_exercise_does_and_goes_with_what_is_exchanged(gym):
    PlannedSlot.objects.filter(session=gym.session("w2d1")).update(sets=9)
    fit(gym, swap(gym), Change("rir", rir=1))
    rows = gym.session("w2d1").slots.order_by("position")
    assert [(row.exercise.name, row.sets == 9) for row in rows] == [
        ("Hammer grip curl", False), ("Overhead wand press-down", True),
    ]  # fmt: skip


def test_what_was_changed_meanwhile_is_not_written_over(gym):
    with pytest.raises(CopyError, match="meanwhile"):
        fit(gym, swap(gym), version=99)
    with pytest.raises(CopyError, match="meanwhile"):
        fit(gym, swap(gym), standing=[5])
    assert not Adaptation.objects.exists()


def test_nothing_closed_is_brought_and_nothing_is_half_saved(gym):
    keep_from(gym, gym.library.hammer)
    before = rows_of(gym.assignment)
    with pytest.raises(CopyError, match="Hammer grip curl"):
        fit(gym, swap(gym))
    assert (rows_of(gym.assignment), Adaptation.objects.exists()) == (before, False)


def test_what_is_closed_under_a_decision_that_stays_holds_nothing_up(gym):
    curls_to_come = PlannedSlot.objects.filter(session__in=gym.assignment.sessions.filter(date__gte=gym.today))
    curls_to_come.filter(exercise=gym.library.curl).update(exercise=gym.library.hammer)
    keep_from(gym, gym.library.curl)
    fit(gym, Change("rir", rir=1))
    assert curls(gym)[1:] == ["Hammer grip curl"] * 3
    adaptation_undo(adaptation=Adaptation.objects.get(), user=gym.coach)
    assert curls(gym)[1:] == ["Hammer grip curl"] * 3
    # Where it would come to stand again, it does hold it up.
    with pytest.raises(CopyError, match="Wand curl"):
        fit(gym, Change("swap", gym.library.hammer.pk, gym.library.press.pk), Change("rir", rir=1))


def test_a_plan_that_is_over_is_not_fitted(gym):
    gym.assignment.status, gym.assignment.ended_on = "ended", gym.today - dt.timedelta(days=1)
    gym.assignment.save()
    with pytest.raises(CopyError, match="last day is over"):
        fit(gym, swap(gym))


def test_who_began_before_it_keeps_the_plan_they_saw(gym):
    planned = gym.session("w2d1")
    before, began = rows_of(gym.assignment)[planned.pk], timezone.now()
    fit(gym, swap(gym))
    started = op("session.start", began, None, session=session_id_for(planned.pk), planned=planned.pk)
    operation_apply(client=gym.client, operation=started, now=timezone.now())
    assert rows_of(gym.assignment)[planned.pk] == before
    assert curls(gym) == ["Wand curl", "Wand curl", "Hammer grip curl", "Hammer grip curl"]


def test_the_next_version_keeps_to_it_and_can_be_taken_back_under_it(gym):
    gym.edit("prescribe", slot="w3s1", sets="5")
    gym.bring()
    revision = gym.assignment.revisions.get()
    fit(gym, swap(gym))
    gym.edit("prescribe", slot="w4s1", sets="6")
    gym.bring()
    assert curls(gym)[1:] == ["Hammer grip curl"] * 3
    assert [row.fitting for row in gym.assignment.revisions.order_by("pk")] == [False, True, False]
    assert revision.pk == gym.assignment.revisions.order_by("pk").first().pk


def test_what_changed_since_is_told_until_the_coach_has_acted(gym):
    assert since_fitted(gym.client, [gym.assignment], gym.today) == []
    keep_from(gym, gym.library.curl)
    gym.client.minutes_per_session = 40
    gym.client.save()
    (said,) = since_fitted(gym.client, [gym.assignment], gym.today)
    assert [one.code for one in said.changed] == ["fit_since_limit", "fit_since_minutes_new"]
    assert said.closed == ["Wand curl"]
    fit(gym, swap(gym))
    gym.assignment.refresh_from_db()
    assert since_fitted(gym.client, [gym.assignment], gym.today) == []


def test_a_limit_with_a_last_day_closes_nothing_that_is_planned_after_it(client, gym):
    days = [row.date for row in gym.assignment.sessions.filter(day_key__endswith="d1", date__gte=gym.today)]
    limit = keep_from(gym, gym.library.curl)
    ClientLimit.objects.filter(pk=limit.pk).update(until=days[0])
    rows = with_closed(open_rows(gym.today), gym.today).filter(closed=True)
    assert list(rows.values_list("session__date", flat=True)) == [days[0]]
    client.force_login(gym.client.user)
    for key, warned in (("w2d1", True), ("w3d1", False)):
        page = client.get(reverse("planned-session", args=[gym.session(key).pk])).content.decode()
        assert ("You keep from this exercise." in page) == warned


def test_a_limit_that_is_over_before_the_first_day_is_no_news_of_the_copy(gym):
    limit = keep_from(gym, gym.library.curl)
    ClientLimit.objects.filter(pk=limit.pk).update(until=gym.today + dt.timedelta(days=5))
    gym.assignment.delete()
    gym.starts_on = gym.today + dt.timedelta(days=7)
    (gym.assignment,) = gym.assign(gym.client)
    assert since_fitted(gym.client, [gym.assignment], gym.today) == []
    fit(gym)
    gym.assignment.refresh_from_db()
    for day in (gym.today, gym.starts_on):
        assert since_fitted(gym.client, [gym.assignment], day) == []


def test_a_few_days_do_not_count_as_fitted_to_everything(gym):
    gym.client.minutes_per_session = 40
    gym.client.save()
    fit(gym, swap(gym, slots=frozenset({"w2s1"})), for_some_days=True)
    gym.assignment.refresh_from_db()
    assert since_fitted(gym.client, [gym.assignment], gym.today)


def test_the_client_page_tells_it_and_the_phone_warns_beside_the_exercise(client, gym):
    keep_from(gym, gym.library.curl)
    client.force_login(gym.coach)
    page = client.get(reverse("client-page", args=[gym.client.pk])).content.decode()
    assert "was not fitted to what is known now" in page
    assert "1 exercise still planned is closed to the client: Wand curl." in " ".join(page.split())
    board = client.get(reverse("board")).content.decode()
    assert "1 exercise closed<" in board
    client.force_login(gym.client.user)
    address = reverse("planned-session", args=[gym.session("w2d1").pk])
    assert "You keep from this exercise." in client.get(address).content.decode()
    fit(gym, swap(gym))
    assert "You keep from this exercise." not in client.get(address).content.decode()
    client.force_login(gym.coach)
    assert "exercise closed" not in client.get(reverse("board")).content.decode()


def test_the_changes_of_the_copy_name_it_and_it_is_undone_beside_the_plan(client, gym):
    fit(gym, swap(gym))
    client.force_login(gym.coach)
    page = client.get(reverse("assignment-revisions", args=[gym.assignment.pk])).content.decode()
    assert "Adaptations changed" in page
    assert "Take this back" not in page
    revision = gym.assignment.revisions.get()
    refused = client.post(reverse("assignment-revision-undo", args=[revision.pk]))
    assert (refused.status_code, "one by one" in refused.content.decode()) == (422, True)
    client.post(reverse("adaptation-undo", args=[Adaptation.objects.get().pk]))
    assert curls(gym) == ["Wand curl"] * 4
