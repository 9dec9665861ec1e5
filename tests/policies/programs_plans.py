"""Programs, what is assigned from them, and a client's targets.

`world.program` is the coach's: everyone who coaches in the practice reads it, its author and the owner write it.
`world.assignment` is the client's copy: read by the client and their coach, written by the coach and the owner.
"""

import datetime as dt

from django.utils import timezone

from programs.handout.options import Options
from programs.handout.pdf import pdf_is_possible
from programs.models import AssignmentRevision, MuscleGroup
from programs.services.assignment_make import program_assign
from programs.services.handout_links import handout_link_create
from programs.services.program_write import program_create
from tests.policies import COACHES_HERE, MEMBERS, PUBLIC, Policy, only
from tests.programs.factories import document, make_exercise, make_group, make_head, slot

WRITERS = ("coach", "owner")
# Where no PDF can be made, the page that says so.
PDF = 200 if pdf_is_possible() else 409


def extend(world):
    """A program of one day with one exercise, and the client's copy of it."""
    head = make_head("walk-head", make_group("walk-group"))
    world.plan_exercise = make_exercise("Walk curl", {head: 1})
    world.program = program_create(
        practice=world.practice,
        author=world.coach,
        name="Arms",
        document=document([slot("s1", world.plan_exercise.pk)]),
    )
    (world.assignment,) = program_assign(
        program=world.program,
        clients=[world.client],
        starts_on=dt.date(2026, 11, 30),
        weekdays=[0],
        assigned_by=world.coach,
    )
    world.handout_link = handout_link_create(user=world.coach, options=Options(1, 1), program=world.program)


def program(world):
    return {"program_id": world.program.pk}


def assignment(world):
    return {"assignment_id": world.assignment.pk}


def version(world):
    return {"program_id": world.program.pk, "version": 1}


def brought(world):
    """A version brought to the client's copy, anew for each who tries to take it back."""
    made = AssignmentRevision.objects.create(
        assignment=world.assignment,
        from_version=1,
        to_version=2,
        weekdays_before=[0],
        made_by=world.coach,
        made_at=timezone.now(),
    )
    return {"revision_id": made.pk}


def targets(world):
    """The form names every group there is, also those that other rooms made."""
    return {"training_status": "novice", **{f"priority-{group.slug}": "focus" for group in MuscleGroup.objects.all()}}


def written(**outcomes):
    """Readers of the practice get 403 where only writers may."""
    return only(*WRITERS, colleague=403, **outcomes)


POLICIES = {
    "program-list": Policy(get=only(*MEMBERS)),
    "program-add": Policy(
        get=only(*MEMBERS),
        post=only(*MEMBERS, status=302),
        data=lambda world: {"name": "Legs", "days": 2, "written_for": "novice"},
    ),
    "program-editor": Policy(kwargs=program, get=only(*COACHES_HERE)),
    "program-change": Policy(
        authors_only=True,
        kwargs=program,
        post=written(status=302),
        data=lambda world: {"do": "add-day;week=w1", "base_version": 1, "week": "w1"},
    ),
    "program-weeks": Policy(kwargs=program, get=only(*COACHES_HERE)),
    "program-pick": Policy(authors_only=True, kwargs=program, get=written(), query=lambda world: {"day": "w1d1"}),
    "program-outlook": Policy(
        authors_only=True,
        kwargs=program,
        post=written(status=302),
        data=lambda world: {"written_for": "novice", "weekday_0": 1, "week": "w1"},
    ),
    "program-settings": Policy(
        authors_only=True,
        kwargs=program,
        get=written(),
        post=written(status=302),
        data=lambda world: {"name": "Legs", "written_for": "novice"},
    ),
    "program-history": Policy(kwargs=program, get=only(*COACHES_HERE)),
    "program-version": Policy(kwargs=version, get=only(*COACHES_HERE)),
    "program-differences": Policy(kwargs=program, get=only(*COACHES_HERE), query=lambda world: {"from": 1, "to": 1}),
    "program-version-copy": Policy(kwargs=version, post=only(*COACHES_HERE, status=302)),
    # A colleague brings a version to their own clients; the client named here is not theirs, so nothing is written.
    "program-bring": Policy(
        kwargs=program,
        get=only(*COACHES_HERE),
        post=only(*COACHES_HERE, status=302),
        data=lambda world: {"version": 1, "assignment": world.assignment.pk},
    ),
    "assignment-revisions": Policy(kwargs=assignment, get=only("client", *WRITERS)),
    "assignment-revision-undo": Policy(kwargs=brought, post=only(*WRITERS, status=302, client=403)),
    # A colleague may take a copy of what they may read.
    "program-copy": Policy(kwargs=program, post=only(*COACHES_HERE, status=302)),
    "program-archive": Policy(
        authors_only=True, kwargs=program, post=written(status=302), data=lambda world: {"archived": "yes"}
    ),
    # A colleague may hand a program out to their own clients; the client named here is not theirs, so nothing is made.
    "program-assign": Policy(
        kwargs=program,
        get=only(*COACHES_HERE),
        post=only(*WRITERS, status=302, colleague=422),
        data=lambda world: {"client": world.client.pk, "starts_on": "2026-12-07", "weekday_0": 0},
    ),
    # An empty POST holds no file, and says so.
    "program-import": Policy(get=only(*MEMBERS), post=only(*MEMBERS, status=422)),
    "program-template": Policy(kwargs=lambda world: {"kind": "csv"}, get=only(*MEMBERS)),
    "program-schema": Policy(get=PUBLIC),
    "program-export": Policy(kwargs=program, get=only(*COACHES_HERE)),
    "program-file": Policy(kwargs=lambda world: {**program(world), "kind": "json"}, get=only(*COACHES_HERE)),
    "program-handout": Policy(kwargs=program, get=only(*COACHES_HERE)),
    "program-handout-pdf": Policy(kwargs=program, get=only(*COACHES_HERE, status=PDF)),
    "assignment-handout": Policy(kwargs=assignment, get=only("client", *WRITERS)),
    "assignment-handout-pdf": Policy(kwargs=assignment, get=only("client", *WRITERS, status=PDF)),
    "program-handout-links": Policy(
        kwargs=program, get=only(*COACHES_HERE), post=only(*COACHES_HERE, status=302), data=lambda world: {"days": 30}
    ),
    "assignment-handout-links": Policy(
        kwargs=assignment,
        get=only(*WRITERS, client=403),
        post=only(*WRITERS, status=302, client=403),
        data=lambda world: {"days": 30},
    ),
    "handout-link-withdraw": Policy(
        authors_only=True, kwargs=lambda world: {"link_id": world.handout_link.link.pk}, post=written(status=302)
    ),
    # The secret is the permission: whoever has it reads.
    "handout-shared": Policy(kwargs=lambda world: {"token": world.handout_link.token}, get=PUBLIC),
    "assignment-detail": Policy(kwargs=assignment, get=only("client", *WRITERS)),
    "assignment-change": Policy(
        kwargs=assignment,
        post=only(*WRITERS, status=302, client=403),
        data=lambda world: {"action": "pause", "since": "2026-12-01"},
    ),
    "client-targets": Policy(
        kwargs=lambda world: {"client_id": world.client.pk},
        get=only(*WRITERS, client=403),
        post=only(*WRITERS, status=302, client=403),
        data=targets,
    ),
}
