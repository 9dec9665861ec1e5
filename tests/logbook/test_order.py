"""However the operations of a phone are shuffled, doubled and split, the log ends the same."""

import datetime as dt
import uuid

from django.db import transaction
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from logbook.models import CheckIn, Session, SetHistory, SetLog
from logbook.services.operations import operation_apply
from tests.logbook.factories import NOW, op, set_data

SETS = [uuid.UUID(int=n, version=4) for n in range(1, 4)]
SESSION = uuid.UUID(int=99, version=4)
END = NOW + dt.timedelta(hours=1)
ITEMS = ("fatigue", "sleep", "soreness", "stress", "mood")

moments = st.integers(1, 12).map(lambda minutes: NOW + dt.timedelta(minutes=minutes))
numbers = {"load": st.sampled_from([20, 22.5, 45]), "reps": st.integers(0, 100), "rir": st.sampled_from([None, 0, 1.5])}
changes = st.one_of(
    st.tuples(st.just("set.edit"), moments, st.sampled_from(SETS), st.fixed_dictionaries(numbers)),
    st.tuples(st.just("set.delete"), moments, st.sampled_from(SETS), st.just({})),
)
answers = st.tuples(st.integers(0, 2), st.fixed_dictionaries({name: st.integers(1, 5) for name in ITEMS}))


@st.composite
def logs(draw):
    """(first operations, the rest in the order made, the rest in another order with some sent twice)."""
    rest = []
    for kind, at, identity, data in draw(st.lists(changes, max_size=8)):
        more = {"unit": "kg", "note": "", "side": "both", "warm_up": False, **data} if data else {}
        rest.append(op(kind, at, draw(st.uuids(version=4)), set=identity, **more))
    for days, items in draw(st.lists(answers, max_size=3, unique_by=lambda answer: answer[0])):
        rest.append(op("checkin.record", NOW - dt.timedelta(days=days), draw(st.uuids(version=4)), **items))
    rest.append(op("session.finish", END, draw(st.uuids(version=4)), session=SESSION, session_rpe=7, minutes=55))
    rest.append(op("session.note", NOW, draw(st.uuids(version=4)), session=SESSION, note="fine"))
    shuffled = draw(st.permutations(rest))
    again = draw(st.lists(st.sampled_from(rest), max_size=4))
    return rest, shuffled + again


def state(client):
    """Everything that stands, and everything that was ever typed."""
    live = {
        # The values under a deletion count nowhere; that it is deleted, and by which edit, must agree.
        row.pk: (row.deleted_at or (row.load_kg, row.reps, row.rir), row.edited_at, row.edited_by)
        for row in SetLog.objects.filter(client=client)
    }
    typed = {(str(h.set_id), h.values["load"], h.values["reps"], h.values["rir"]) for h in SetHistory.objects.all()}
    typed |= {(str(row.pk), row.load, row.reps, row.rir) for row in SetLog.objects.filter(client=client)}
    session = Session.objects.values("session_rpe", "minutes", "note", "finished_at", "date").get()
    return live, typed, session, list(CheckIn.objects.order_by("date").values("date", *ITEMS))


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(logs())
def test_shuffled_and_doubled_operations_end_the_same(gym, log):
    in_order, shuffled = log
    begin = [op("session.start", NOW, uuid.UUID(int=7, version=4), session=SESSION)]
    begin += [
        op("set.record", NOW, uuid.UUID(int=50 + n, version=4), **set_data(SESSION, gym.curl, set=identity, number=n))
        for n, identity in enumerate(SETS, 1)
    ]
    ends = []
    for operations in (in_order, shuffled):
        with transaction.atomic():
            for operation in begin + operations:
                operation_apply(client=gym.client, operation=operation, now=END)
            ends.append(state(gym.client))
            transaction.set_rollback(True)
    assert ends[0] == ends[1]
