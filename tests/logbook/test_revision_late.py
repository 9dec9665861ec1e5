"""A phone without a network tells of a session when the plan has been changed already."""

import datetime as dt
import uuid

import pytest
from django.utils import timezone

from logbook.models import Session
from logbook.operations.refused import Refused
from logbook.services.operations import operation_apply
from logbook.services.sessions import session_id_for
from tests.logbook.factories import op, set_data
from tests.programs.revision_fixture import make_gym, rows_of


@pytest.fixture
def gym(world):
    return make_gym(world)


def send(gym, kind, at, **data):
    return operation_apply(client=gym.client, operation=op(kind, at, None, **data), now=timezone.now())


def change(gym):
    gym.edit("prescribe", slot="w2s1", sets="5")
    gym.edit("swap", slot="w2s2", exercise=gym.library.push.pk)
    gym.edit("remove", key="w2s1")
    gym.bring()


def start(gym, planned, at):
    session = session_id_for(planned.pk)
    send(gym, "session.start", at, session=session, planned=planned.pk)
    return session


def test_who_began_before_the_change_has_the_plan_they_saw(gym):
    planned = gym.session("w2d1")
    row = planned.slots.first()
    before = rows_of(gym.assignment)[planned.pk]
    began = timezone.now()
    change(gym)
    assert rows_of(gym.assignment)[planned.pk] != before
    session = start(gym, planned, began)
    assert rows_of(gym.assignment)[planned.pk] == before
    send(gym, "set.record", timezone.now(), **set_data(session, row.exercise, slot=row.pk))
    assert Session.objects.get().sets.get().slot == row
    record = gym.assignment.revisions.get().sessions.get(session=planned)
    assert record.withdrawn_at is not None


def test_a_cancelled_day_that_was_begun_before_counts_again(gym):
    planned = gym.session("w2d1")
    began = timezone.now()
    gym.edit("remove", key="w2d1")
    gym.bring()
    start(gym, planned, began)
    planned.refresh_from_db()
    assert planned.cancelled_at is None


def test_who_begins_after_the_change_has_the_new_plan(gym):
    planned = gym.session("w2d1")
    change(gym)
    after = rows_of(gym.assignment)[planned.pk]
    start(gym, planned, timezone.now())
    assert rows_of(gym.assignment)[planned.pk] == after


def test_several_changes_since_the_beginning_are_all_withdrawn(gym):
    planned = gym.session("w2d1")
    gym.edit("prescribe", slot="w2s1", sets="4")
    gym.bring()
    seen = rows_of(gym.assignment)[planned.pk]
    began = timezone.now()
    for sets in ("5", "6"):
        gym.edit("prescribe", slot="w2s1", sets=sets)
        gym.bring()
    start(gym, planned, began)
    assert rows_of(gym.assignment)[planned.pk] == seen


def test_a_set_for_an_exercise_that_was_taken_out_is_not_lost(gym):
    planned = gym.session("w2d1")
    row = planned.slots.first()
    change(gym)
    session = start(gym, planned, timezone.now())
    send(gym, "set.record", timezone.now(), **set_data(session, row.exercise, slot=row.pk))
    logged = Session.objects.get().sets.get()
    assert (logged.slot, logged.exercise) == (None, row.exercise)
    skip = send(gym, "slot.skip", timezone.now(), session=session, slot=row.pk, skipped=True, reason="time")
    assert skip["won"] is False


def test_a_place_that_never_was_is_still_refused(gym):
    planned = gym.session("w2d1")
    other = gym.session("w3d1").slots.first()
    change(gym)
    gone = gym.assignment.sessions.get(day_key="w3d1").slots.get(pk=other.pk)
    gone.delete()
    session = start(gym, planned, timezone.now())
    with pytest.raises(Refused):
        send(gym, "set.record", timezone.now(), **set_data(session, other.exercise, slot=other.pk))


def test_the_phone_is_told_what_changed(gym):
    """The copy it keeps has another version now, so it fetches the page and says the difference."""
    from logbook.reads.kept import kept_pages

    before = {page["urls"][0]: page["version"] for page in kept_pages(gym.client, today=gym.today)}
    change(gym)
    after = {page["urls"][0]: page["version"] for page in kept_pages(gym.client, today=gym.today)}
    changed = [url for url in before if before[url] != after[url]]
    assert len(changed) == 1
    assert str(gym.session("w2d1").pk) in changed[0]


def test_a_session_begun_later_by_the_clock_of_another_day_is_its_own(gym):
    """A plan of today begun yesterday on paper: nothing had been brought for a session that is not in a revision."""
    planned = gym.session("w3d1")
    change(gym)
    session = uuid.uuid4()
    send(gym, "session.start", timezone.now() - dt.timedelta(hours=1), session=session, planned=planned.pk)
    assert gym.assignment.revisions.get().sessions.filter(withdrawn_at=None).count() == 1
