"""The practice itself, its coaches, its programs and one invitation that is still open."""

import datetime as dt
from dataclasses import dataclass

from allauth.account.models import EmailAddress

from accounts.models import Membership, Practice, User
from demo.practice import people
from demo.practice.documents import document_of
from demo.practice.programs import PLANS
from programs.models import Exercise, Program
from programs.services.program_write import program_create


@dataclass(frozen=True)
class Staff:
    practice: Practice
    owner: Membership
    coaches: dict[str, Membership]
    programs: dict[str, Program]


def address_of(name: str) -> str:
    """Return the invented e-mail address of a person: the first name at the demo's domain."""
    return f"{name.split()[0].lower()}@{people.DOMAIN}"


def person_create(name: str, **fields: object) -> User:
    """Create a person who can sign in at once with the demo's password."""
    user = User.objects.create_user(email=address_of(name), name=name, password=people.PASSWORD, **fields)
    EmailAddress.objects.create(user=user, email=user.email, verified=True, primary=True)
    return user


def staff_get_or_create(today: dt.date) -> Staff:
    """Return the practice with its coaches and programs, made on the first call."""
    practice = Practice.objects.filter(name=people.PRACTICE).first()
    if practice is None:
        # Off for the demo alone, so that its printed logins work at once.
        practice = Practice.objects.create(name=people.PRACTICE, time_zone="Europe/Berlin", require_coach_mfa=False)
        since = today - dt.timedelta(days=700)
        for name in (people.OWNER, *people.COACHES):
            role = Membership.Role.OWNER if name == people.OWNER else Membership.Role.COACH
            user = person_create(name, time_zone="Europe/Berlin")
            Membership.objects.create(practice=practice, user=user, role=role, started_on=since)
    members = {m.user.name: m for m in practice.memberships.select_related("user", "practice")}
    exercises = dict(Exercise.objects.filter(practice=None).values_list("slug", "pk"))
    programs = {}
    for key, plan in PLANS.items():
        programs[key] = practice.programs.filter(name=plan.name).first() or program_create(
            practice=practice,
            author=members[people.COACHES[0]].user,
            name=plan.name,
            note=plan.note,
            written_for=plan.written_for,
            document=document_of(plan, exercises),
        )
    coaches = {name: members[name] for name in people.COACHES}
    return Staff(practice, members[people.OWNER], coaches, programs)
