"""One client: their record, their plan, and what they did of it."""

import datetime as dt

from django.db import transaction
from django.utils import timezone

from accounts.models import Client, Engagement, User
from demo.cohort.simulate import simulate_client
from demo.practice.diary import write_diary
from demo.practice.fit import write_fit
from demo.practice.people import Person
from demo.practice.plan import cohort_plan
from demo.practice.sessions import write_sessions
from demo.practice.staff import Staff, address_of, person_create
from demo.practice.talk import write_talk
from demo.practice.truths import profile_of
from logbook.services.screening import screening_answer
from periodization.screening import QUESTIONS
from programs.services.assignment_make import program_assign

# What a specialisation leaves aside for a while.
ASIDE = {"arms": ("chest", "lats", "upper-back", "glutes", "quadriceps", "hamstrings", "calves", "abdominals")}
WEEKDAYS = {2: (0, 3), 3: (0, 2, 4), 4: (0, 1, 3, 4), 5: (0, 1, 2, 4, 5)}


@transaction.atomic
def client_create(person: Person, staff: Staff, this_monday: dt.date, seed: int) -> bool:
    """Create `person` with their weeks of training, this one included; False when they are there already.

    One transaction: a start that was broken off goes on with the next client.
    """
    if User.objects.filter(email=address_of(person.name)).exists():
        return False
    starts_on = this_monday - dt.timedelta(weeks=person.weeks - 1)
    user = person_create(person.name, time_zone=person.zone, load_unit=person.unit)
    client = Client.objects.create(
        user=user,
        practice=staff.practice,
        training_status=person.status,
        priorities=priorities_of(person),
    )
    screening_answer(
        client=client,
        answers={**dict.fromkeys(QUESTIONS, False), "active": True},
        at=dt.datetime.combine(starts_on, dt.time(8), dt.UTC),
    )
    coach = staff.coaches[person.coach]
    Engagement.objects.create(coach=coach, client=client, started_on=starts_on - dt.timedelta(days=30))
    program = staff.programs[person.plan]
    days = len(program.document["blocks"][0]["weeks"][0]["days"])
    [assignment] = program_assign(
        program=program,
        clients=[client],
        starts_on=starts_on,
        weekdays=person.weekdays or WEEKDAYS[days],
        assigned_by=coach.user,
    )
    today = user.today()
    plan = cohort_plan(assignment, person.mass_kg, before=today)
    history = simulate_client(profile_of(person), plan.sessions, seed, name=address_of(person.name))
    write_sessions(client, plan, history, seed)
    write_diary(client, plan, history, person.mass_kg, starts_on)
    # Told now: the program that runs was written for everyone, the next one is fitted.
    write_fit(client, person.name, coach.user, today)
    write_talk(client, person, coach, timezone.now())
    return True


def priorities_of(person: Person) -> dict[str, str]:
    """Return what the coach set for each muscle group that is not trained as usual."""
    return dict.fromkeys(ASIDE.get(person.plan, ()), "incidental") | dict.fromkeys(person.focus, "focus")
