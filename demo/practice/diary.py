"""Check-ins and body mass of a simulated client."""

import datetime as dt

from accounts.models import Client
from demo.cohort.records import SimulatedHistory
from demo.practice.plan import AskedPlan
from demo.practice.sessions import made_id
from logbook.models import BodyMass, CheckIn
from periodization.units import from_kg

MORNING = dt.time(7, 10)


def write_diary(client: Client, plan: AskedPlan, history: SimulatedHistory, mass_kg: float, starts_on: dt.date) -> None:
    """Store the check-ins of `history` and a weighing every fourth week."""
    unit = client.user.load_unit
    CheckIn.objects.bulk_create(
        CheckIn(
            id=made_id(fact.id),
            client=client,
            date=fact.day,
            fatigue=round(fact.fatigue),
            sleep=round(fact.sleep),
            soreness=round(fact.soreness),
            stress=round(fact.stress),
            mood=round(fact.mood),
            sore_groups=list(fact.sore_groups),
            edited_at=dt.datetime.combine(fact.day, MORNING, client.user.zone),
        )
        for fact in history.check_ins
    )
    last = history.days[-1].day if history.days else starts_on
    days = [starts_on + dt.timedelta(weeks=week) for week in range(0, 1 + (last - starts_on).days // 7, 4)]
    masses = [mass_kg + 0.3 * number for number in range(len(days))]
    BodyMass.objects.bulk_create(
        BodyMass(
            id=made_id(client.user.email, "mass", day),
            client=client,
            date=day,
            mass=round(from_kg(kg, unit), 1),
            unit=unit,
            mass_kg=kg,
            edited_at=dt.datetime.combine(day, MORNING, client.user.zone),
        )
        for day, kg in zip(days, masses, strict=True)
    )
