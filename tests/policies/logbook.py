"""Who may do what in the logbook: the client writes their own log; their coach and the practice's owner read it."""

import uuid

from django.utils import timezone

from logbook.models import LogImport, PastRun
from logbook.past.columns import DAYS
from logbook.services.calendar import calendar_open
from logbook.services.operations import operation_apply
from logbook.services.sessions import session_id_for
from programs.sheets.packed import pack
from programs.sheets.table import Table
from tests.logbook.factories import make_exercise, make_groups, make_planned, op, set_data
from tests.policies import CLIENTS, LOGIN, MEMBERS, PUBLIC, Policy, everyone, only


def extend(world):
    """A planned session of `client` that has begun, with one set; a second one that has not."""
    make_groups()
    now = timezone.now()
    world.curl = make_exercise("policy-curl", "barbell")
    world.planned = make_planned(world.client, now.date(), {"exercise": world.curl}, coach=world.coach)
    world.waiting = make_planned(world.client, now.date(), {"exercise": world.curl}, coach=world.coach)
    world.session = session_id_for(world.planned.pk)
    world.set = uuid.uuid4()
    world.empty = uuid.uuid4()
    world.comment = uuid.uuid4()
    world.calendar_feed = calendar_open(client=world.client, starts_at=None)
    world.past = LogImport.objects.create(
        client=world.client, by=world.coach, at=now, kind="sets", first_day=now.date(), last_day=now.date()
    )
    world.past_run = PastRun.objects.create(
        client=world.client, by=world.coach, layout="days", how={}, rows=1, queued_at=now
    )
    for operation in (
        op("session.start", now, session=world.session, planned=world.planned.pk),
        op("set.record", now, **set_data(world.session, world.curl, set=world.set)),
        op("session.start", now, session=world.empty),
        op("comment.write", now, comment=world.comment, session=world.session, text="Heavy today."),
    ):
        operation_apply(client=world.client, operation=operation, now=now)


def own(**kwargs):
    """Pages of the client's own log: the coach and the owner can see the row, but not write it."""
    return only("client", coach=403, owner=403, **kwargs)


def in_session(world):
    return {"session_id": world.session}


def past_table(world):
    """A preview that comes back."""
    return {"layout": "days", "table": pack(Table(DAYS, ["Date", "Body mass"], [(2, ["2024-01-08", "71.5"])]))}


def read_api(world):
    return {"client": world.client.pk}


MINE = only(*CLIENTS)
READERS = only("client", "coach", "owner")
API_READERS = only("client", "coach", "owner", anonymous=401)

POLICIES = {
    # The worker, the app's description and the offline start page are the same for everyone.
    "service-worker": Policy(get=PUBLIC),
    "manifest": Policy(get=PUBLIC),
    "on-this-phone": Policy(get=PUBLIC),
    "kept-pages": Policy(get=MINE),
    "today": Policy(get=MINE),
    "plan": Policy(get=MINE),
    "history": Policy(get=MINE),
    "screening": Policy(get=MINE, post=only(*CLIENTS, status=422)),
    "calendar": Policy(get=only(*CLIENTS), post=only(*CLIENTS, status=302), data=lambda world: {"starts_at": "18:30"}),
    # Whoever has the address: it is the key.
    "calendar-feed": Policy(kwargs=lambda world: {"token": world.calendar_feed.token}, get=PUBLIC),
    # Both bring the past in, and whoever may do that may take it back.
    "client-past": Policy(
        kwargs=lambda world: {"client_id": world.client.pk},
        get=only("coach", "owner", client=403),
        post=only("coach", "owner", client=403, status=200),
        data=past_table,
    ),
    "past-run": Policy(
        kwargs=lambda world: {"run_id": world.past_run.pk},
        get=only("coach", "owner", "client"),
        post=only("coach", "owner", "client", status=302),
    ),
    "past-run-stop": Policy(
        kwargs=lambda world: {"run_id": world.past_run.pk}, post=only("coach", "owner", "client", status=302)
    ),
    "own-past": Policy(get=MINE, post=only(*CLIENTS, status=200), data=past_table),
    "past-template": Policy(kwargs=lambda world: {"layout": "days", "kind": "csv"}, get=only(*CLIENTS, *MEMBERS)),
    "past-take-back": Policy(
        kwargs=lambda world: {"import_id": world.past.pk}, post=only("client", "coach", "owner", status=302)
    ),
    "check-in": Policy(
        get=MINE,
        post=only(*CLIENTS, status=302),
        data=lambda world: dict.fromkeys(("fatigue", "sleep", "soreness", "stress", "mood"), "3"),
    ),
    "body-mass": Policy(post=only(*CLIENTS, status=302), data=lambda world: {"mass": "80", "unit": "kg"}),
    # The plan is the client's and nobody logs for them: a coach gets 404 here and reads the plan on the client's page.
    "planned-session": Policy(kwargs=lambda world: {"planned_id": world.waiting.pk}, get=only("client")),
    "session-unplanned": Policy(post=only(*CLIENTS, status=302)),
    "session-page": Policy(kwargs=in_session, get=own()),
    "set-log": Policy(
        kwargs=in_session,
        post=own(status=302),
        data=lambda world: {
            "set": uuid.uuid4(),
            "exercise": world.curl.pk,
            "number": 2,
            "load": "40",
            "unit": "kg",
            "reps": "8",
        },
    ),
    "slot-skip": Policy(
        kwargs=in_session,
        post=own(status=302),
        data=lambda world: {"slot": world.planned.slots.get().pk, "skipped": "1", "reason": "time"},
    ),
    "session-note": Policy(kwargs=in_session, post=own(status=302), data=lambda world: {"note": "fine"}),
    "pain-report": Policy(
        kwargs=in_session,
        post=own(status=302),
        data=lambda world: {"report": uuid.uuid4(), "score": "3", "site": "knee", "side": "left"},
    ),
    "session-finish": Policy(
        kwargs=in_session, post=own(status=302), data=lambda world: {"session_rpe": "7", "minutes": "45"}
    ),
    "session-discard": Policy(kwargs=lambda world: {"session_id": world.empty}, post=own(status=302)),
    "session-add": Policy(kwargs=in_session, get=own()),
    "set-page": Policy(
        kwargs=lambda world: {"set_id": world.set},
        get=own(),
        post=own(status=302),
        data=lambda world: {"load": "42.5", "unit": "kg", "reps": "8", "rir": "1"},
    ),
    "set-delete": Policy(kwargs=lambda world: {"set_id": world.set}, post=own(status=302)),
    # What the client typed is theirs; their coach may write right what was a slip, and the earlier value is kept.
    "set-correct": Policy(
        kwargs=lambda world: {"set_id": world.set},
        get=only("coach", "owner", client=403),
        post=only("coach", "owner", client=403, status=302),
        data=lambda world: {"load": "42.5", "unit": "kg", "reps": "8", "rir": "1"},
    ),
    "set-right": Policy(
        kwargs=lambda world: {"set_id": world.set},
        post=only("coach", "owner", client=403, status=302),
        data=lambda world: {"seen": "40.0"},
    ),
    "performed-session": Policy(kwargs=in_session, get=READERS),
    "session-comment": Policy(
        kwargs=in_session,
        post=only("client", "coach", "owner", status=302),
        data=lambda world: {"comment": uuid.uuid4(), "text": "Well done."},
    ),
    "comments": Policy(
        get=MINE,
        post=only(*CLIENTS, status=302),
        data=lambda world: {"comment": uuid.uuid4(), "text": "See you on Monday."},
    ),
    # Only the reader's own marks are touched, whatever is named: it answers everyone alike.
    "comments-seen": Policy(
        post=everyone(302, anonymous=LOGIN), data=lambda world: {"comment": world.comment, "next": "/"}
    ),
    "comment-take-back": Policy(
        kwargs=lambda world: {"comment_id": world.comment},
        post=only("client", status=302, coach=403, owner=403),
    ),
    "api-v1:operations": Policy(
        post=only(*CLIENTS, anonymous=401), data=lambda world: {"operations": []}, as_json=True
    ),
    "api-v1:plan": Policy(get=API_READERS, query=read_api),
    "api-v1:session-list": Policy(get=API_READERS, query=read_api),
    "api-v1:session-detail": Policy(kwargs=lambda world: {"pk": world.session}, get=API_READERS),
    "api-v1:set-detail": Policy(kwargs=lambda world: {"pk": world.set}, get=API_READERS),
    "api-v1:check-in-list": Policy(get=API_READERS, query=read_api),
    "api-v1:comment-list": Policy(get=API_READERS, query=read_api),
    # The description holds nobody's data, but costs work to make.
    "api-v1:schema": Policy(get=everyone(200, anonymous=401)),
}
