"""What tests of the fitting page do: begin a fitting, tell of a client, choose, and assign."""

import datetime as dt

from django.urls import reverse

from coaching.fitting.rows import fit_page
from coaching.views.fitting import form_of
from programs.models import ClientEquipment, ClientLimit, Limit, PlannedSlot
from programs.services.fitting import fitting_begin
from programs.services.program_write import program_create
from tests.programs.factories import document, slot

MONDAY = dt.date(2027, 3, 1)


def begin(world, program, clients):
    return fitting_begin(
        program=program, clients=clients, starts_on=MONDAY, weekdays=[0, 3], end_running=False, author=world.coach
    )


def whole_body(world, library):
    """Write a program of two days: bench press and curl, then leg press."""
    bench, curl, press = (library.exercise(s).pk for s in ("barbell-bench-press", "barbell-curl", "leg-press"))
    return program_create(
        practice=world.practice,
        author=world.coach,
        name="Whole body",
        document=document([slot("s1", bench), slot("s2", curl)], [slot("s3", press, sets=4)], weeks=2),
    )


def give(world, library, client, *gear, limit="", **fields):
    for one in gear:
        ClientEquipment.objects.create(client=client, equipment=library.equipment(one), told_by=world.coach)
    if limit:
        ClientLimit.objects.create(
            client=client, limit=Limit.objects.get(slug=limit), since=dt.date(2026, 1, 1), told_by=world.coach
        )
    for name, value in fields.items():
        setattr(client, name, value)
    client.save()


def page(coach, fitting):
    return coach.get(reverse("fitting", args=[fitting.pk])).content.decode()


def choose(coach, fitting, person, **said):
    """Send the open form of one client as it stands, but for `said`; None leaves a tick away."""
    page = fit_page(fitting, [person])
    form = form_of(page.rows[0], page)
    stands = {f"{person.pk}-{name}": form.get_initial_for_field(field, name) for name, field in form.fields.items()}
    named = stands | {f"{person.pk}-{name.replace('__', ':')}": value for name, value in said.items()}
    named = {name: value for name, value in named.items() if value not in (None, False)}
    return coach.post(reverse("fitting-client", args=[fitting.pk, person.pk]), named)


def make(coach, fitting):
    return coach.post(reverse("fitting-make", args=[fitting.pk]))


def planned(client):
    return set(PlannedSlot.objects.filter(session__client=client).values_list("exercise__slug", flat=True))
