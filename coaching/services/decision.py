"""Answer a prompt, or take the answer back. The client's row lock makes one of two coaches the first."""

import datetime as dt
import hashlib
import json
from typing import Any

from django.db import transaction
from django.utils import timezone

from accounts.models import Client, User
from coaching.models import Decision, Prompt
from coaching.services.choice import Choice
from coaching.services.conflict import decided_already, prompt_gone, proposal_changed, too_late, undone_already
from coaching.services.plan_changes import apply_proposal, restore
from logbook.models import Comment
from logbook.services.comments import comment_take_back, comment_write
from logbook.services.recompute import recompute_request
from programs.signals import plan_changed

UNDO_WITHIN = dt.timedelta(days=7)


def digest(proposal: dict[str, Any]) -> str:
    """Return a short print of a proposal: the page sends it back, so that nobody accepts numbers they have not seen."""
    return hashlib.sha256(json.dumps(proposal, sort_keys=True).encode()).hexdigest()[:16]


@transaction.atomic
def decision_accept(*, prompt: Prompt, coach: User, reason: str, seen: str, choice: Choice | None = None) -> Decision:
    """Accept a prompt and write its numbers onto the plan; `seen` is the digest of the proposal on the page.

    `choice` is what the coach wants otherwise than proposed. A question to write to the client writes the comment.

    Raises Conflict, with nothing changed, when another answer stands, the question is gone, or its numbers differ.
    """
    current = _open_prompt(prompt)
    if digest(current.proposal) != seen:
        raise proposal_changed()
    proposal = choice.applied_to(current.proposal) if choice else current.proposal
    if current.kind == "contact":
        return _write(current, coach, reason, proposal)
    changes = apply_proposal(current.client_id, proposal)
    decision = _record(current, coach, Decision.Answer.ACCEPT, reason, changes, proposal)
    plan_changed.send(sender=Decision, client_id=current.client_id, since=current.week)
    return decision


@transaction.atomic
def decision_refuse(*, prompt: Prompt, coach: User, reason: str) -> Decision:
    """Refuse a prompt; the plan stays as it is. Raises Conflict as accepting does."""
    current = _open_prompt(prompt)
    decision = _record(current, coach, Decision.Answer.REFUSE, reason, [], current.proposal)
    recompute_request(client_id=current.client_id, since=current.week, reason="decision.refuse")
    return decision


@transaction.atomic
def decision_undo(*, decision: Decision, now: dt.datetime) -> Decision:
    """Take a decision back; its `changes` then say of each row whether it could be restored, and why not.

    A comment that was written is taken back too. Raises Conflict when it was taken back already, or a week ago.
    """
    _lock(decision.client_id)
    current = Decision.objects.select_for_update().get(pk=decision.pk)
    if current.undone_at is not None:
        raise undone_already()
    if now - current.decided_at > UNDO_WITHIN:
        raise too_late()
    if comment := Comment.objects.filter(pk=current.proposal.get("comment")).first():
        comment_take_back(comment=comment, now=now)
    current.changes = restore(current.changes, deload=current.kind == "deload")
    current.undone_at = now
    current.save(update_fields=["changes", "undone_at"])
    plan_changed.send(sender=Decision, client_id=current.client_id, since=current.week)
    return current


def _lock(client_id: int) -> None:
    Client.objects.select_for_update(no_key=True).get(pk=client_id)


def _open_prompt(prompt: Prompt) -> Prompt:
    """Lock the client and return the prompt as it is now, if it still waits for an answer."""
    _lock(prompt.client_id)
    standing = Decision.objects.select_related("coach").filter(prompt_id=prompt.pk, undone_at=None).first()
    if standing:
        raise decided_already(standing)
    current = Prompt.objects.filter(pk=prompt.pk).first()
    if current is None:
        raise prompt_gone()
    return current


def _write(prompt: Prompt, coach: User, reason: str, proposal: dict[str, Any]) -> Decision:
    """Write to the client what the coach chose to say."""
    comment = comment_write(
        client=prompt.client, author=coach, text=proposal["text"], written_at=timezone.now(), week=prompt.week
    )
    stored = proposal | {"comment": str(comment.pk)}
    decision = _record(prompt, coach, Decision.Answer.ACCEPT, reason, [], stored)
    recompute_request(client_id=prompt.client_id, since=prompt.week, reason="decision.accept")
    return decision


def _record(
    prompt: Prompt, coach: User, answer: str, reason: str, changes: list[dict[str, Any]], proposal: dict[str, Any]
) -> Decision:
    return Decision.objects.create(
        prompt_id=prompt.pk,
        client_id=prompt.client_id,
        coach=coach,
        kind=prompt.kind,
        week=prompt.week,
        answer=answer,
        reason=reason,
        proposal=proposal | {"reasons": prompt.reasons},
        changes=changes,
    )
