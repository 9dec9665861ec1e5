"""Drafts: read and written by the coach who asked, and by the practice's owner; one for a client by who trains them.

`world.draft` is the coach's, for their client, and stopped; `world.clash` is one whose clash names a relaxation.
"""

from accounts.models import Client
from programs.models import DraftRun, MuscleGroup
from tests.policies import MEMBERS, Policy, only
from tests.programs.draft_helpers import small_ask, start

WRITERS = ("coach", "owner")


def extend(world):
    client = Client.objects.get(pk=world.client.pk)
    world.draft = start(world, client=client)
    world.clash = start(world, small_ask(include=(1,)), client=client)
    DraftRun.objects.filter(pk=world.draft.pk).update(state="cancelled")
    relaxation = {"demand": {"kind": "include", "subject": "1", "day": "", "amount": None}, "enough": None}
    DraftRun.objects.filter(pk=world.clash.pk).update(
        state="clash", result={"demands": [relaxation["demand"]], "proven": True, "relaxations": [relaxation]}
    )


def draft(world):
    return {"run_id": world.draft.pk}


def form(world):
    """Every muscle group is left out but one; the form says what is missing."""
    return {"client": world.client.pk, **{f"priority-{group.slug}": "out" for group in MuscleGroup.objects.all()}}


POLICIES = {
    "draft-list": Policy(get=only(*MEMBERS)),
    "draft-new": Policy(
        get=only(*WRITERS),
        query=lambda world: {"client": world.client.pk},
        # An unfinished form is refused with its faults to those who train the client, before that to others.
        post=only(*WRITERS, status=422),
        data=form,
    ),
    "draft-exercises": Policy(get=only(*MEMBERS), query=lambda world: {"list": "include", "include-q": "curl"}),
    "draft-detail": Policy(authors_only=True, kwargs=draft, get=only(*WRITERS)),
    "draft-stop": Policy(authors_only=True, kwargs=draft, post=only(*WRITERS, status=302)),
    # A stopped draft holds no week: nobody gets a program of it.
    "draft-program": Policy(kwargs=draft, post=only()),
    "draft-again": Policy(authors_only=True, kwargs=draft, post=only(*WRITERS, status=302)),
    "draft-relax": Policy(
        authors_only=True,
        kwargs=lambda world: {"run_id": world.clash.pk},
        post=only(*WRITERS, status=302),
        data=lambda world: {"relaxation": "0"},
    ),
}
