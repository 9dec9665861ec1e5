"""What the fault tests do inside the application's own set-up (called through `manage.py shell`)."""

import datetime as dt
import io
import sys

from django.core.management import call_command
from django.utils import timezone

from accounts.models import Client, Engagement, User
from coaching.dispatch import dispatch, enqueue
from coaching.sweep import sweep
from logbook.models import RecomputeRequest, Session, SetLog
from tests.coaching.dump import dump
from tests.coaching.factories import make_catalogue, monday
from tests.conftest import make_world

CLIENTS = 200


def arrange() -> None:
    """Make the tables, and log two sessions for each of 200 clients with their requests; tell no worker yet."""
    call_command("migrate", verbosity=0)
    world = make_world()
    exercise = make_catalogue()["bench-press"]
    users = User.objects.bulk_create(User(email=f"f{n}@example.org", name=f"F{n}") for n in range(CLIENTS))
    clients = Client.objects.bulk_create(Client(practice=world.practice, user=user) for user in users)
    Engagement.objects.bulk_create(
        Engagement(coach=world.coach_membership, client=one, started_on=monday(5)) for one in clients
    )
    noon = dt.datetime.combine(monday(2), dt.time(12), dt.UTC)
    sessions = Session.objects.bulk_create(
        Session(client=one, date=monday(2 - n), started_at=noon + dt.timedelta(days=7 * n), session_rpe=7, minutes=60)
        for one in clients
        for n in range(2)
    )
    SetLog.objects.bulk_create(
        SetLog(
            client_id=one.client_id,
            session=one,
            exercise=exercise,
            number=number,
            load=60,
            load_kg=60,
            reps=10,
            rir=2,
            performed_at=one.started_at,
            edited_at=one.started_at,
        )
        for one in sessions
        for number in range(1, 6)
    )
    RecomputeRequest.objects.bulk_create(
        RecomputeRequest(client=one, since=monday(2), reason="set.log") for one in clients
    )


def arrange_and_queue() -> None:
    arrange()
    queue()


def queue() -> None:
    """Put a task for every waiting request on the broker."""
    for client_id in RecomputeRequest.objects.order_by("pk").values_list("client_id", flat=True):
        enqueue(client_id)


def dispatch_one() -> None:
    """Dispatch one client; say whether it worked and how long it took at most."""
    started = timezone.now()
    told = dispatch(RecomputeRequest.objects.earliest("pk").client_id)
    seconds = (timezone.now() - started).total_seconds()
    sys.stdout.write(f"{'told' if told else 'left'} {'soon' if seconds < 3 else 'late'}")


def sweep_now() -> None:
    sys.stdout.write(str(sweep()))


def compare() -> None:
    """Say how many weeks there are, and whether a rebuild of everything gives the very rows that are there."""
    worked = dump()
    call_command("recompute", "--all", stdout=io.StringIO())
    sys.stdout.write(f"{len(worked['weeks'])} weeks, {'same' if dump() == worked else 'other'} rows")
