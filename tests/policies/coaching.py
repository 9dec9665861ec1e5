"""The coach's desk: pages about a client are for those who may write that client's plan."""

import datetime as dt
import uuid

from django.core import signing
from django.utils import timezone

from coaching.letters.send import SALT
from coaching.models import CoachNote, Decision, Erasure, FlagRow, Prompt, SavedView, StrengthPoint, WeekSummary
from coaching.recompute import run
from coaching.services.decision import digest
from tests.coaching import factories as make
from tests.policies import CLIENTS, MEMBERS, PUBLIC, TRAIN_NOW, Policy, only

# The client's coach and the practice's owner; a colleague must not learn that the client exists, and the client, who
# may read their own data elsewhere, has no business at the desk.
DESK = only("coach", "owner", client=403)


def extend(world):
    """A client with every derived row: a bad end of a block, pain, a question and a decision."""
    exercises = make.make_catalogue()
    make.train(world.client, world.coach, exercises, weeks=12, fade=2, seed=3)
    run.work_off(world.client.pk)
    world.desk_prompt = Prompt.objects.get(client=world.client, week=make.monday(1), kind="deload")
    world.desk_flag = FlagRow.objects.filter(client=world.client, subject_kind="exercise").first()
    world.desk_point = StrengthPoint.objects.filter(client=world.client).first()
    world.desk_slot = world.desk_prompt.proposal["slots"][0]["slot"]
    week = WeekSummary.objects.filter(client=world.client).last()
    world.desk_week, world.desk_group = week.week.isoformat(), next(iter(week.volume["groups"]))
    world.desk_note = CoachNote.objects.create(client=world.client, author=world.coach, text="Goes too heavy.")
    world.desk_decision = Decision.objects.create(
        prompt_id=uuid.uuid4(),
        client=world.client,
        coach=world.coach,
        kind="deload",
        week=make.monday() - dt.timedelta(days=70),
        answer="refuse",
        reason="Not now.",
        proposal=world.desk_prompt.proposal | {"reasons": world.desk_prompt.reasons},
        decided_at=timezone.now(),
    )
    world.view = SavedView.objects.create(membership=world.coach_membership, name="Urgent", query="attention=on")
    world.erasure = Erasure.objects.create(practice=world.practice, by=world.owner, counts={"logbook.SetLog": 3})


def _accept(world):
    return {"accept-seen": digest(world.desk_prompt.proposal), "accept-reason": "Three bad weeks."}


def _of_client(world):
    return {"client_id": world.client.pk}


def _prompt(world):
    return {"prompt_id": world.desk_prompt.pk}


def _decision(world):
    return {"decision_id": world.desk_decision.pk}


# Whoever trains the client reads the note; its author alone changes it.
OTHERS_NOTE = dict.fromkeys(("owner", *TRAIN_NOW), 403)
ANSWER = only("coach", "owner", status=302, client=403)

POLICIES = {
    "board": Policy(get=only(*MEMBERS)),
    "view-save": Policy(post=only(*MEMBERS, status=302), data=lambda world: {"name": "Mine", "query": "attention=on"}),
    # A view belongs to one coach; nobody else learns that it exists.
    "view-remove": Policy(
        authors_only=True, kwargs=lambda world: {"view_id": world.view.pk}, post=only("coach", status=302)
    ),
    # Whoever may answer none of the chosen questions is sent back to their own week.
    "answer-many": Policy(
        get=only(*MEMBERS, status=302),
        post=only("coach", "owner", colleague=302, outsider=302),
        data=lambda world: {
            "kind": "deload",
            "prompt": str(world.desk_prompt.pk),
            f"{world.desk_prompt.pk}-seen": digest(world.desk_prompt.proposal),
        },
    ),
    # A client's own numbers; their coach reads them on the client page.
    "progress": Policy(get=only("client", "other_client")),
    "client-page": Policy(kwargs=_of_client, get=DESK),
    "client-screening": Policy(kwargs=_of_client, get=DESK, post=only("coach", "owner", status=422, client=403)),
    "client-volume": Policy(kwargs=_of_client, get=DESK),
    "client-strength": Policy(kwargs=_of_client, get=DESK),
    "client-sessions": Policy(kwargs=_of_client, get=DESK),
    "client-well-being": Policy(kwargs=_of_client, get=DESK),
    "client-decisions": Policy(kwargs=_of_client, get=DESK),
    "client-plot-file": Policy(kwargs=lambda world: _of_client(world) | {"name": "compliance"}, get=DESK),
    "progress-file": Policy(kwargs=lambda world: {"name": "mass"}, get=only("client", "other_client")),
    "client-comments": Policy(
        kwargs=_of_client,
        get=DESK,
        post=only("coach", "owner", status=302, client=403),
        data=lambda world: {"comment": uuid.uuid4(), "text": "Well done."},
    ),
    # The client is refused like at the rest of the desk; nothing tells them that there is a note.
    "client-notes": Policy(
        kwargs=_of_client,
        get=DESK,
        post=only("coach", "owner", status=302, client=403),
        data=lambda world: {"text": "Sleeps badly."},
    ),
    "note": Policy(
        kwargs=lambda world: {"note_id": world.desk_note.pk},
        get=only("coach", **OTHERS_NOTE),
        post=only("coach", status=302, **OTHERS_NOTE),
        data=lambda world: {"text": "Sleeps better."},
    ),
    "note-remove": Policy(
        kwargs=lambda world: {"note_id": world.desk_note.pk}, post=only("coach", status=302, **OTHERS_NOTE)
    ),
    "why": Policy(
        kwargs=lambda world: _of_client(world) | {"kind": "volume", "path": f"{world.desk_week}/{world.desk_group}"},
        get=DESK,
    ),
    # A client's own numbers: another client finds nothing under the same address.
    "own-why": Policy(
        kwargs=lambda world: {
            "kind": "strength",
            "path": f"{world.desk_point.session_id}/{world.desk_point.exercise_id}",
        },
        get=only("client"),
    ),
    "why-flag": Policy(kwargs=lambda world: {"flag_id": world.desk_flag.pk}, get=DESK),
    "prompt": Policy(kwargs=_prompt, get=DESK),
    "prompt-accept": Policy(kwargs=_prompt, post=ANSWER, data=_accept),
    "prompt-refuse": Policy(kwargs=_prompt, post=ANSWER, data=lambda world: {"refuse-reason": "A quiet week comes."}),
    "decision": Policy(kwargs=_decision, get=DESK),
    "decision-undo": Policy(kwargs=_decision, post=ANSWER),
    # How the numbers are made, and whether the parts answer: for everyone.
    # Whoever has the letter; all that it does is to stop it.
    "letters-stop": Policy(
        kwargs=lambda world: {"token": signing.dumps(world.client.user.pk, salt=SALT)}, get=PUBLIC, post=PUBLIC
    ),
    "practice-data": Policy(get=only("owner", "outsider", coach=403, colleague=403)),
    "practice-export": Policy(post=only("owner", "outsider", coach=403, colleague=403)),
    "erasure": Policy(
        kwargs=lambda world: {"erasure_id": world.erasure.pk}, get=only("owner", coach=403, colleague=403)
    ),
    "client-export": Policy(kwargs=_of_client, post=DESK),
    "client-erase": Policy(
        kwargs=_of_client,
        get=only("owner", coach=403, client=403),
        post=only("owner", coach=403, client=403, status=302),
        data=lambda world: {"name": str(world.client)},
    ),
    "own-export": Policy(post=only(*CLIENTS)),
    "methods": Policy(get=PUBLIC),
    "method": Policy(kwargs=lambda world: {"topic": "strength"}, get=PUBLIC),
    "health": Policy(get=PUBLIC),
}
