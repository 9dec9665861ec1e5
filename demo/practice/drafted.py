"""A week that the solver drafted and a coach took as a program: the demo has a draft with its reasons to look at.

The draft is really made, from the library as it is: a small request, answered in about a second and always the same.
"""

from django.db import transaction
from django.utils import timezone

from accounts.models import User
from demo.practice.staff import Staff
from programs.models import DraftRun, Program
from programs.services.draft_ask import Ask, AskedDay, AskedTarget, ask_to_json
from programs.services.draft_program import draft_make_program
from programs.services.draft_work import draft_work_off

NAME = "Arms first, 45 minutes twice"
FOCUS = AskedTarget(8, 12, "focus", heads_must=True, long_must=True)
ASK = Ask(
    status="intermediate",
    days=(AskedDay(0, 45), AskedDay(3, 45)),
    targets={
        "biceps": FOCUS,
        "triceps": FOCUS,
        "side-delt": AskedTarget(6, 10),
        "rear-delt": AskedTarget(4, 8, "incidental"),
    },
    pairs=True,
)


@transaction.atomic
def write_drafted(staff: Staff, coach: User) -> Program | None:
    """Draft the week and make it a program; None when it is there already."""
    if staff.practice.programs.filter(name=NAME).exists():
        return None
    # Not asked for in the usual way, which would call a worker: the command that loads the demo is the worker.
    run = DraftRun.objects.create(
        practice=staff.practice, author=coach, name=NAME, ask=ask_to_json(ASK), queued_at=timezone.now()
    )
    draft_work_off(run.pk)
    run.refresh_from_db()
    return draft_make_program(run=run, author=coach)
