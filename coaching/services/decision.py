"""Answer a prompt, or take the answer back. The client's row lock makes one of two coaches the first."""

import datetime as dt
import hashlib
import json
from typing import Any

from django.db import transaction

from accounts.models import Client, User
from coaching.models import Decision, Prompt
from coaching.services.conflict import decided_already, prompt_gone, proposal_changed, undone_already
from coaching.services.plan_changes import apply_deload, restore
from logbook.services.recompute import recompute_request
from programs.signals import plan_changed


def digest(proposal: dict[str, Any]) -> str:
    """Return a short print of a proposal: the page sends it back, so that nobody accepts numbers they have not seen."""
    return hashlib.sha256(json.dumps(proposal, sort_keys=True).encode()).hexdigest()[:16]


@transaction.atomic
def decision_accept(*, prompt: Prompt, coach: User, reason: str, seen: str) -> Decision:
    """Accept a prompt and write its numbers onto the plan; `seen` is the digest of the proposal on the page.

    Raises Conflict, with nothing changed, when another answer stands, the question is gone, or its numbers differ.
    """
    current = _open_prompt(prompt)
    if digest(current.proposal) != seen:
        raise proposal_changed()
    changes = apply_deload(current)
    decision = _record(current, coach, Decision.Answer.ACCEPT, reason, changes)
    plan_changed.send(sender=Decision, client_id=current.client_id, since=current.week)
    return decision


@transaction.atomic
def decision_refuse(*, prompt: Prompt, coach: User, reason: str) -> Decision:
    """Refuse a prompt; the plan stays as it is. Raises Conflict as accepting does."""
    current = _open_prompt(prompt)
    decision = _record(current, coach, Decision.Answer.REFUSE, reason, [])
    recompute_request(client_id=current.client_id, since=current.week, reason="decision.refuse")
    return decision


@transaction.atomic
def decision_undo(*, decision: Decision, now: dt.datetime) -> Decision:
    """Take a decision back; its `changes` then say of each row whether it could be restored, and why not.

    Raises Conflict when it was taken back already.
    """
    _lock(decision.client_id)
    current = Decision.objects.select_for_update().get(pk=decision.pk)
    if current.undone_at is not None:
        raise undone_already()
    current.changes = restore(current.changes)
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


def _record(prompt: Prompt, coach: User, answer: str, reason: str, changes: list[dict[str, Any]]) -> Decision:
    return Decision.objects.create(
        prompt_id=prompt.pk,
        client_id=prompt.client_id,
        coach=coach,
        kind=prompt.kind,
        week=prompt.week,
        answer=answer,
        reason=reason,
        proposal=prompt.proposal | {"reasons": prompt.reasons},
        changes=changes,
    )
