"""Limits, equipment and fitting: a fitting is its author's alone; limits are read by client and coaches."""

import datetime as dt

from programs.models import Adaptation, ClientLimit
from programs.services.fitting import fitting_begin
from tests.policies import CLIENTS, Policy, only

WRITERS = only("coach", "owner", status=302, client=403)


def extend(world):
    """A fitting of the coach, a limit that the coach told, and a difference in the client's plan."""
    world.fitting = fitting_begin(
        program=world.program,
        clients=[world.client],
        starts_on=dt.date(2027, 3, 1),
        weekdays=[0],
        end_running=False,
        author=world.coach,
    )
    world.limit = ClientLimit.objects.create(
        client=world.client,
        exercise=world.plan_exercise,
        since=dt.date(2020, 1, 1),
        until=dt.date(2020, 2, 1),
        told_by=world.coach,
    )
    world.adaptation = Adaptation.objects.create(
        assignment=world.assignment,
        client=world.client,
        kind="rir",
        change={"rir": 1},
        reason="fit_status_rir",
        created_by=world.coach,
    )


def of_client(world):
    return {"client_id": world.client.pk}


def of_fitting(world):
    return {"fitting_id": world.fitting.pk}


def one_of_fitting(world):
    return {"fitting_id": world.fitting.pk, "client_id": world.client.pk}


POLICIES = {
    # Nobody else decides in the author's name: not the owner either.
    "fitting": Policy(authors_only=True, kwargs=of_fitting, get=only("coach")),
    "fitting-client": Policy(
        authors_only=True,
        kwargs=one_of_fitting,
        get=only("coach"),
        post=only("coach", status=302),
        data=lambda world: {"anew": "yes"},
    ),
    "fitting-together": Policy(
        authors_only=True,
        kwargs=of_fitting,
        get=only("coach", status=302),
        post=only("coach", status=302),
        data=lambda world: {"group": "t0"},
    ),
    "fitting-make": Policy(
        authors_only=True, kwargs=of_fitting, get=only("coach", status=302), post=only("coach", status=302)
    ),
    "fit-again": Policy(
        kwargs=lambda world: {"assignment_id": world.assignment.pk},
        get=only("coach", "owner", client=403),
        # Without what was read there: looked at again, and nothing written.
        post=only("coach", "owner", status=422, client=403),
        data=lambda world: {"write": "yes"},
    ),
    "client-fit": Policy(
        kwargs=of_client,
        get=only("coach", "owner", client=403),
        post=WRITERS,
        data=lambda world: {"gear": "yes", "minutes": "45"},
    ),
    "own-fit": Policy(
        get=only(*CLIENTS), post=only(*CLIENTS, status=302), data=lambda world: {"gear": "yes", "minutes": "45"}
    ),
    # The client may take off what they told themselves; this one their coach told.
    "client-limit-off": Policy(kwargs=lambda world: {"limit_id": world.limit.pk}, post=WRITERS),
    "adaptation-undo": Policy(kwargs=lambda world: {"adaptation_id": world.adaptation.pk}, post=WRITERS),
}
