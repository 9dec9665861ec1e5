"""A block that ramps, fitted to three clients for next week, and changed once since: what a coach's desk holds after a
while of writing. Written through the same services as the pages use."""

import datetime as dt

from django.db import transaction

from accounts.models import Client, User
from coaching.fitting.rows import fit_copies
from demo.practice.documents import document_of
from demo.practice.programs import RISING
from demo.practice.staff import Staff, address_of
from programs.document.edits import Operation
from programs.models import Exercise, Program
from programs.services.fitting import fitting_assign, fitting_begin
from programs.services.program_write import program_create, program_edit
from programs.services.revision_apply import revision_bring
from programs.services.revision_load import behind

# Of one coach. Each has something at hand, a limit or little time that the program as written does not know of.
FOR = ("Greta Lindqvist-Amo", "Jonas Wederkop", "Mina Castellan")
WEEKDAYS = [0, 3]
RULES = {"every.rir": "3-1", "every.load": "2.5", "group.biceps.sets": "12", "group.triceps.sets": "14"}


@transaction.atomic
def write_fitted(staff: Staff, coach: User, this_monday: dt.date) -> Program | None:
    """Write the program, assign it from next Monday and bring one change to its followers.

    Returns None when it is there already or none of its clients is.
    """
    emails = [address_of(name) for name in FOR]
    clients = list(Client.objects.filter(practice=staff.practice, user__email__in=emails).select_related("user"))
    if not clients or staff.practice.programs.filter(name=RISING.name).exists():
        return None
    program = _ramped(staff, coach)
    fitting = fitting_begin(
        program=program,
        clients=clients,
        starts_on=this_monday + dt.timedelta(weeks=1),
        weekdays=WEEKDAYS,
        end_running=True,
        author=coach,
    )
    copies = fit_copies(fitting, clients).fitted
    fitting_assign(
        fitting=fitting,
        clients=clients,
        adaptations={pk: fitted.adapted() for pk, fitted in copies.items()},
        by=coach,
    )
    return _changed_since(program, coach)


def _ramped(staff: Staff, coach: User) -> Program:
    exercises = dict(Exercise.objects.filter(practice=None).values_list("slug", "pk"))
    program = program_create(
        practice=staff.practice,
        author=coach,
        name=RISING.name,
        note=RISING.note,
        document=document_of(RISING, exercises),
        weekdays=WEEKDAYS,
    )
    block = program.document["blocks"][0]["key"]
    ramp = {"block": block, "weeks": "5", "deload": True, "rules": RULES}
    return _edited(program, coach, Operation("ramp", ramp))


def _changed_since(program: Program, coach: User) -> Program:
    last = program.document["blocks"][0]["ramp"]["base"]["days"][0]["slots"][-1]["key"]
    program = _edited(program, coach, Operation("prescribe", {"slot": last, "text": "3 x 12-20 @ 1-2, rest 60 s"}))
    revision_bring(program=program, version=program.version, assignments=behind(coach, program), user=coach)
    return program


def _edited(program: Program, coach: User, operation: Operation) -> Program:
    program_edit(program=program, user=coach, base_version=program.version, operation=operation)
    program.refresh_from_db()
    return program
