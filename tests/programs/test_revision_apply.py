"""A later version reaches the sessions that are open, and nothing else."""

import datetime as dt

import pytest

from logbook.models import RecomputeRequest
from programs.models import AssignmentRevision, PlannedSession
from programs.services.assignment_move import assignment_pause, assignment_resume, assignment_shift
from programs.services.program_write import StaleVersion
from programs.services.revision_undo import UndoError, revision_undo
from tests.conftest import make_client
from tests.programs.revision_fixture import begin, log_set, make_gym, rows_of

WEEK = dt.timedelta(days=7)


@pytest.fixture
def gym(world):
    return make_gym(world)


def sets(gym):
    """The sets of the first exercise of each first day, in order of dates."""
    days = gym.assignment.sessions.filter(day_key__endswith="d1").order_by("date")
    return [day.slots.get(slot_key__endswith="s1").sets for day in days]


def four_sets(gym, *weeks):
    for week in weeks or (1, 2, 3, 4):
        gym.edit("prescribe", slot=f"w{week}s1", sets="4")


def dates(gym):
    return {one.day_key: (one.date - gym.today).days for one in gym.assignment.sessions.filter(cancelled_at=None)}


def test_a_new_prescription_reaches_today_and_later_and_not_what_is_over(gym):
    four_sets(gym)
    assert sets(gym) == [3, 3, 3, 3]
    gym.bring()
    assert sets(gym) == [3, 4, 4, 4]
    gym.assignment.refresh_from_db()
    assert gym.assignment.program_version == gym.program.version


def test_rows_keep_their_ids_and_lose_targets_of_the_old_prescription(gym):
    row = gym.session("w2d1").slots.first()
    row.target_load_kg, row.target_reps = 40, 9
    row.save()
    before = [one.pk for one in gym.session("w2d1").slots.all()]
    four_sets(gym, 2)
    gym.bring()
    assert [one.pk for one in gym.session("w2d1").slots.all()] == before
    row.refresh_from_db()
    assert (row.sets, row.target_load_kg, row.target_reps) == (4, None, None)


@pytest.mark.parametrize("finished", [True, False])
def test_a_logged_or_running_session_stays(gym, finished):
    begin(gym.session("w2d1"), finished)
    four_sets(gym)
    (revision,) = gym.bring()
    assert sets(gym) == [3, 3, 4, 4]
    why = "logged" if finished else "running"
    assert [one["why"] for one in revision.left_alone] == [why]


def test_a_set_logged_from_another_session_keeps_its_row(gym):
    planned = gym.session("w3d1")
    log_set(begin(gym.session("w2d1")), planned.slots.first())
    four_sets(gym)
    gym.bring()
    assert sets(gym) == [3, 3, 3, 4]


def test_exercises_come_go_change_and_move(gym):
    for week in (2, 3):
        gym.edit("add-slot", day=f"w{week}d1", exercise=gym.library.hammer.pk)
        gym.edit("swap", slot=f"w{week}s2", exercise=gym.library.push.pk)
        gym.edit("move-slot", slot=f"w{week}s2", day=f"w{week}d1", index=0)
        gym.edit("remove", key=f"w{week}s1")
    gym.bring()
    for week in (2, 3):
        rows = gym.session(f"w{week}d1").slots.all()
        assert [(one.position, one.exercise) for one in rows] == [(1, gym.library.push), (2, gym.library.hammer)]
    assert gym.session("w4d1").slots.count() == 2
    again = rows_of(gym.assignment)
    assert gym.bring() == []
    assert rows_of(gym.assignment) == again


def test_a_row_changed_for_the_client_is_kept_unless_the_coach_takes_it(gym):
    planned = gym.session("w3d1")
    planned.slots.filter(position=1).update(sets=2, rir_min=3, rir_max=4)
    PlannedSession.objects.filter(pk=planned.pk).update(is_deload=True)
    four_sets(gym)
    gym.edit("add-slot", day="w3d1", exercise=gym.library.hammer.pk)
    (revision,) = gym.bring()
    assert sets(gym) == [3, 4, 2, 4]
    assert planned.slots.count() == 3
    assert [one["why"] for one in revision.left_alone] == ["kept"]
    planned.refresh_from_db()
    assert planned.is_deload


def test_the_coach_can_take_over_what_was_changed_for_the_client(gym):
    planned = gym.session("w3d1")
    planned.slots.filter(position=1).update(sets=2)
    four_sets(gym)
    gym.bring(take=[planned.pk])
    assert sets(gym) == [3, 4, 4, 4]


def test_a_day_changed_for_the_client_is_not_taken_out_unseen(gym):
    planned = gym.session("w3d1")
    planned.slots.filter(position=1).update(sets=2)
    gym.edit("remove", key="w3d1")
    gym.bring()
    planned.refresh_from_db()
    assert planned.cancelled_at is None


def test_a_week_put_in_pushes_the_later_ones_on(gym):
    gym.edit("copy", key="w2")
    before = dates(gym)
    gym.bring()
    after = dates(gym)
    assert {key: after[key] - before[key] for key in before} == dict.fromkeys(
        ("w1d1", "w1d2", "w2d1", "w2d2"), 0
    ) | dict.fromkeys(("w3d1", "w3d2", "w4d1", "w4d2"), 7)
    new = sorted(after[key] for key in set(after) - set(before))
    assert new == [7, 10]


def test_a_week_taken_out_lets_the_later_ones_move_up(gym):
    gym.edit("remove", key="w3")
    gym.bring()
    assert dates(gym) == {"w1d1": -7, "w1d2": -4, "w2d1": 0, "w2d2": 3, "w4d1": 7, "w4d2": 10}


def test_a_week_that_is_over_is_not_dealt_out_again(gym):
    gym.edit("remove", key="w1")
    gym.edit("add-block")
    before = dates(gym)
    gym.bring()
    assert dates(gym) == before


def test_a_new_week_before_what_has_begun_comes_too_late(gym):
    gym.edit("copy", key="w1")
    gym.edit("nudge", key=gym.program.document["blocks"][0]["weeks"][1]["key"], by=-1)
    before = dates(gym)
    (revision,) = gym.bring()
    assert dates(gym) == before
    assert [one["why"] for one in revision.left_alone] == ["late", "late"]


def test_a_new_day_falls_on_the_same_free_weekday_in_every_week(gym):
    for week in (1, 2, 3, 4):
        gym.edit("add-day", week=f"w{week}")
    for block in gym.program.document["blocks"]:
        for week in block["weeks"]:
            gym.edit("add-slot", day=week["days"][2]["key"], exercise=gym.library.hammer.pk)
    gym.bring()
    extra = gym.assignment.sessions.filter(day_name="Day 3")
    assert len({one.date.weekday() for one in extra}) == 1
    assert extra.count() == 3
    assert all(one.date > gym.today and one.slots.count() == 1 for one in extra)
    gym.assignment.refresh_from_db()
    assert gym.assignment.weekdays[:2] == [gym.starts_on.weekday(), (gym.starts_on.weekday() + 3) % 7]
    assert gym.assignment.weekdays[2] == extra[0].date.weekday()


def test_a_day_taken_out_is_cancelled_and_comes_back_as_it_was(gym):
    gym.edit("remove", key="w3d2")
    planned = gym.session("w3d2")
    gym.bring()
    planned.refresh_from_db()
    assert planned.cancelled_at is not None
    assert dates(gym)["w3d1"] == 7
    with_day = gym.program.revisions.get(version=1).document
    from programs.services.program_write import save_version

    save_version(gym.program, gym.coach, with_day, "Returned")
    gym.bring()
    planned.refresh_from_db()
    assert (planned.cancelled_at, (planned.date - gym.today).days) == (None, 10)
    assert gym.assignment.sessions.filter(day_key="w3d2").count() == 1


def test_days_that_change_places_change_dates(gym):
    gym.edit("nudge", key="w3d1", by=1)
    gym.bring()
    assert (dates(gym)["w3d1"], dates(gym)["w3d2"]) == (10, 7)


def test_a_moved_plan_keeps_its_moved_dates(gym):
    assignment_shift(assignment=gym.assignment, since=gym.today + WEEK, days=2)
    gym.assignment.refresh_from_db()
    four_sets(gym)
    before = dates(gym)
    gym.bring()
    assert dates(gym) == before
    gym.edit("copy", key="w3")
    gym.bring()
    after = dates(gym)
    assert after["w4d1"] - before["w4d1"] == 7
    assert sorted(after[key] - before["w3d1"] for key in set(after) - set(before)) == [7, 10]


def test_a_paused_plan_is_written_and_stays_paused(gym):
    assignment_pause(assignment=gym.assignment, since=gym.today)
    gym.assignment.refresh_from_db()
    four_sets(gym)
    gym.edit("copy", key="w4")
    gym.bring()
    assert sets(gym) == [3, 4, 4, 4]
    assert gym.assignment.sessions.count() == 10
    assert not gym.assignment.sessions.filter(date__gte=gym.today, cancelled_at=None).exists()
    gym.assignment.refresh_from_db()
    assignment_resume(assignment=gym.assignment, since=gym.today)
    assert len(dates(gym)) == 10


def test_nothing_comes_after_the_last_day(gym):
    from programs.services.assignment_end import assignment_end

    assignment_end(assignment=gym.assignment, last_day=gym.today + WEEK)
    gym.edit("copy", key="w2")
    gym.bring()
    last = gym.assignment.sessions.filter(cancelled_at=None).order_by("date").last()
    assert last.date <= gym.today + WEEK


def test_who_no_longer_follows_it_gets_nothing(gym):
    from programs.services.assignment_end import assignment_end

    assignment_end(assignment=gym.assignment, last_day=gym.today - dt.timedelta(days=1))
    four_sets(gym)
    assert gym.bring() == []


def test_a_version_that_nobody_has_seen_is_not_brought(gym):
    from programs.services.revision_apply import revision_bring

    four_sets(gym)
    with pytest.raises(StaleVersion):
        revision_bring(program=gym.program, version=2, assignments=[gym.assignment], user=gym.coach)


def test_a_recompute_is_asked_for_from_the_first_day_that_changed(gym):
    RecomputeRequest.objects.all().delete()
    four_sets(gym, 3)
    gym.bring()
    assert RecomputeRequest.objects.filter(client=gym.client, since=gym.today + WEEK).exists()


def test_many_clients_cost_the_same_queries(gym, django_assert_num_queries, django_assert_max_num_queries, monkeypatch):
    """But for the one request to recompute that each client gets."""
    from programs.services import revision_apply

    monkeypatch.setattr(revision_apply.plan_changed, "send", lambda **kwargs: None)
    more = [make_client(gym.practice, f"celia{n}", gym.coach_membership) for n in range(8)]
    others = gym.assign(*more)
    four_sets(gym)
    with django_assert_max_num_queries(40) as few:
        gym.bring()
    updates = len(few)
    with django_assert_max_num_queries(updates + len(others)):
        gym.bring(*others)


def test_undo_puts_back_everything_that_is_not_begun(gym):
    before = gym.rows()
    four_sets(gym)
    gym.edit("remove", key="w3d2")
    gym.edit("swap", slot="w4s2", exercise=gym.library.push.pk)
    gym.edit("remove", key="w4s1")
    gym.edit("copy", key="w2")
    (revision,) = gym.bring()
    assert gym.rows() != before
    revision_undo(revision=revision, user=gym.coach)
    made = set(gym.rows()) - set(before)
    assert {key: row for key, row in gym.rows().items() if key not in made} == before
    assert not gym.assignment.sessions.filter(pk__in=made, cancelled_at=None).exists()
    gym.assignment.refresh_from_db()
    assert gym.assignment.program_version == 1
    with pytest.raises(UndoError):
        revision_undo(revision=revision, user=gym.coach)


def test_what_was_taken_back_can_be_brought_again(gym):
    four_sets(gym)
    gym.edit("copy", key="w2")
    (revision,) = gym.bring()
    after = gym.rows()
    revision_undo(revision=revision, user=gym.coach)
    gym.bring()
    assert gym.rows() == after


def test_undo_leaves_what_was_logged_since_and_says_so(gym):
    four_sets(gym)
    (revision,) = gym.bring()
    begin(gym.session("w2d1"))
    gym.session("w3d1").slots.filter(position=1).update(sets=6)
    revision_undo(revision=revision, user=gym.coach)
    assert sets(gym) == [3, 4, 6, 3]
    assert sorted(filter(None, revision.sessions.values_list("kept", flat=True))) == ["begun", "rewritten"]


def test_only_the_latest_revision_can_be_taken_back(gym):
    four_sets(gym, 3)
    gym.bring()
    four_sets(gym, 4)
    gym.bring()
    later, first = AssignmentRevision.objects.all()
    with pytest.raises(UndoError):
        revision_undo(revision=first, user=gym.coach)
    revision_undo(revision=later, user=gym.coach)
    revision_undo(revision=first, user=gym.coach)
    assert sets(gym) == [3, 3, 3, 3]
