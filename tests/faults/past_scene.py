"""What the fault test of past training does inside the application's own set-up (through `manage.py shell`)."""

import datetime as dt

from django.core.management import call_command
from django.utils import timezone

from coaching.sweep import sweep
from logbook.models import PastRun
from logbook.past.reading import HowToRead
from logbook.services.past_run import how_from_json, past_again, past_look
from logbook.services.past_signs import forget_signs
from programs.models import Exercise
from tests.conftest import make_world

ROWS = 20_000
A_DAY = 20


def begin() -> None:
    """Make the tables and the library, and upload years of sets."""
    call_command("migrate", verbosity=0)
    call_command("load_library", verbosity=0)
    world = make_world()
    name = Exercise.objects.filter(laterality="both", rep_unit="reps", load_kind="external").earliest("pk").name
    first = timezone.now().date() - dt.timedelta(days=ROWS // A_DAY + 1)
    lines = ["Date,Exercise,Set,Load,Reps"]
    for number in range(ROWS):
        day = first + dt.timedelta(days=number // A_DAY)
        lines.append(f'{day},"{name}",{number % A_DAY + 1},60,8')
    how = HowToRead(unit="kg", today=timezone.now().date())
    past_look(client=world.client, by=world.coach, data="\n".join(lines).encode(), how=how, file_name="years.csv")


def save() -> None:
    """Say that what was read is to be saved."""
    run = PastRun.objects.get()
    past_again(run=run, by=run.by, how=how_from_json(run.how), cells={}, names={}, save=True)


def lose() -> None:
    """Let time pass since the worker's last sign of life, and sweep."""
    forget_signs(PastRun.objects.get().pk)
    PastRun.objects.update(started_at=timezone.now() - dt.timedelta(minutes=5))
    sweep()
