"""Fill the database with the invented practice, and print how to sign in."""

import datetime as dt

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from demo.practice import people
from demo.practice.client import client_create
from demo.practice.drafted import write_drafted
from demo.practice.fitted import write_fitted
from demo.practice.people import PEOPLE
from demo.practice.staff import address_of, staff_get_or_create


class Command(BaseCommand):
    help = (
        "Load the invented practice (24 clients, 16 weeks of simulated training). Repeatable: it goes on where it was."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--clients", type=int, default=len(PEOPLE), metavar="N", help="only the first N clients")

    def handle(self, *args: object, clients: int, **options: object) -> None:
        if settings.PRODUCTION:
            raise CommandError("The demo has published passwords: it is not for SINEWRIGHT_MODE=production.")
        today = timezone.now().date()
        monday = today - dt.timedelta(days=today.weekday())
        staff = staff_get_or_create(today)
        for number, person in enumerate(PEOPLE[:clients], 1):
            made = client_create(person, staff, monday, seed=number)
            state = f"{person.weeks} weeks of training" if made else "already there"
            self.stdout.write(f"  {number:2}/{min(clients, len(PEOPLE))}  {person.name}: {state}")
            self.stdout.flush()
        coach = staff.coaches[people.COACHES[0]].user
        write_fitted(staff, coach, monday)
        write_drafted(staff, coach)
        self.stdout.write("\nSign in with one of these; the password of all is " + self.style.SUCCESS(people.PASSWORD))
        novice = next(p for p in PEOPLE if p.status == "novice")
        pounds = next(p for p in PEOPLE if p.unit == "lb")
        for role, name in (
            ("owner", people.OWNER),
            ("coach", people.COACHES[0]),
            ("client", novice.name),
            ("client, logs in pounds", pounds.name),
        ):
            self.stdout.write(f"  {role:24} {address_of(name)}")
