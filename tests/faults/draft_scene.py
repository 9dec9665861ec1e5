"""What the fault test of a draft does inside the application's own set-up (called through `manage.py shell`)."""

import datetime as dt

from django.core.management import call_command
from django.utils import timezone

from accounts.models import Client
from coaching.dispatch import enqueue
from coaching.sweep import sweep
from logbook.models import RecomputeRequest
from periodization.targets import target_range
from programs.models import DraftRun, MuscleGroup
from programs.services.draft_ask import Ask, AskedDay, AskedTarget, ask_from_json
from programs.services.draft_run import AT_ONCE, draft_start, draft_stop
from tests.conftest import make_world


def begin() -> None:
    """Make the tables and the library, and ask for a week that takes a solver long."""
    call_command("migrate", verbosity=0)
    call_command("load_library", verbosity=0)
    world = make_world()
    ranges = {slug: target_range("intermediate", "normal", slug) for slug in _groups()}
    ask = Ask(
        status="intermediate",
        days=tuple(AskedDay(day, 45) for day in range(5)),
        targets={slug: AskedTarget(one.floor, one.ceiling) for slug, one in ranges.items()},
        seconds=60,
    )
    draft_start(practice=world.practice, author=world.coach, client=None, name="Week", ask=ask)


def begin_several() -> None:
    """Ask for as many such weeks as may be at work, and for one recompute after them."""
    begin()
    first = DraftRun.objects.get()
    for number in range(AT_ONCE - 1):
        draft_start(
            practice=first.practice,
            author=first.author,
            client=None,
            name=f"Week {number}",
            ask=ask_from_json(first.ask),
        )
    client = Client.objects.filter(practice=first.practice).earliest("pk")
    RecomputeRequest.objects.create(client=client, since=client.user.today(), reason="set.log")
    enqueue(client.pk)


def lose() -> None:
    """Let time pass since the worker's last sign of life, and sweep."""
    DraftRun.objects.update(alive_at=timezone.now() - dt.timedelta(minutes=5))
    sweep()


def stop() -> None:
    draft_stop(run=DraftRun.objects.get())


def _groups() -> list[str]:
    return list(MuscleGroup.objects.values_list("slug", flat=True))
