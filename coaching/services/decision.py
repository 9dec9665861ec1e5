"""Answer a prompt, or take the answer back. The client's row lock makes one of two coaches the first."""

import datetime as dt
import hashlib
import json
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from django.db import transaction
from django.utils import timezone

from accounts.models import Client, User
from coaching.models import Decision, Prompt
from coaching.services.choice import Choice
from coaching.services.conflict import (
    Conflict,
    decided_already,
    prompt_gone,
    proposal_changed,
    too_late,
    undone_already,
)
from coaching.services.plan_changes import Changes, change, open_plan, restore, write
from logbook.models import Comment
from logbook.services.comments import comment_take_back, comment_write
from logbook.services.recompute import recompute_request
from programs.signals import plan_changed, plans_changed

UNDO_WITHIN = dt.timedelta(days=7)


def digest(proposal: dict[str, Any]) -> str:
    """Return a short print of a proposal: the page sends it back, so that nobody accepts numbers they have not seen."""
    return hashlib.sha256(json.dumps(proposal, sort_keys=True).encode()).hexdigest()[:16]


@dataclass(frozen=True)
class Acceptance:
    """A question to accept: `seen` is the digest of the proposal on the page, `choice` what the coach wants otherwise
    than proposed."""

    prompt: Prompt
    seen: str
    choice: Choice | None = None


def decision_accept(*, prompt: Prompt, coach: User, reason: str, seen: str, choice: Choice | None = None) -> Decision:
    """Accept a prompt and write its numbers onto the plan, as `decisions_accept` does for several.

    Raises Conflict, with nothing changed, when another answer stands, the question is gone, or its numbers differ.
    """
    [found] = decisions_accept(accepted=[Acceptance(prompt, seen, choice)], coach=coach, reason=reason)
    if isinstance(found, Conflict):
        raise found
    return found


@transaction.atomic
def decisions_accept(*, accepted: Sequence[Acceptance], coach: User, reason: str) -> list[Decision | Conflict]:
    """Accept prompts and write their numbers onto the plans; a question to write to a client writes the comment.

    Each stands for itself: where another answer stands, the question is gone, or its numbers differ, its place in the
    result holds the Conflict and nothing of it is changed. A fixed number of queries for any number of plans.
    """
    open_ones = _open_prompts([one.prompt for one in accepted])
    proposals = {one.prompt.pk: _chosen(open_ones[one.prompt.pk], one) for one in accepted}
    plan = open_plan(
        [
            (one.prompt.client_id, proposal)
            for one in accepted
            if not isinstance(proposal := proposals[one.prompt.pk], Conflict) and one.prompt.kind != "contact"
        ]
    )
    changes, result = Changes(), []
    made: list[Decision] = []
    for one in accepted:
        current, proposal = open_ones[one.prompt.pk], proposals[one.prompt.pk]
        if isinstance(current, Conflict) or isinstance(proposal, Conflict):
            result.append(current if isinstance(current, Conflict) else proposal)
            continue
        if current.kind == "contact":
            result.append(_write(current, coach, reason, proposal))
            continue
        try:
            changed = change(current.client_id, proposal, plan, changes)
        except Conflict as conflict:
            result.append(conflict)
            continue
        made.append(_decision(current, coach, Decision.Answer.ACCEPT, reason, changed, proposal))
        result.append(made[-1])
    if made:
        write(changes)
        Decision.objects.bulk_create(made)
        since: dict[int, dt.date] = {}
        for decision in made:
            since[decision.client_id] = min(decision.week, since.get(decision.client_id, decision.week))
        plans_changed.send(sender=Decision, since=since)
    return result


def _chosen(current: Prompt | Conflict, one: Acceptance) -> dict[str, Any] | Conflict:
    """Return the proposal as the coach wants it; a Conflict where it is not the one that was seen."""
    if isinstance(current, Conflict):
        return current
    if digest(current.proposal) != one.seen:
        return proposal_changed()
    return one.choice.applied_to(current.proposal) if one.choice else current.proposal


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
    _lock([decision.client_id])
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


def _lock(client_ids: Collection[int]) -> None:
    # In one order, so that two coaches who answer for the same clients wait for each other and not both.
    list(Client.objects.select_for_update(no_key=True).filter(pk__in=client_ids).order_by("pk").values_list("pk"))


def _open_prompt(prompt: Prompt) -> Prompt:
    """Lock the client and return the prompt as it is now, if it still waits for an answer."""
    found = _open_prompts([prompt])[prompt.pk]
    if isinstance(found, Conflict):
        raise found
    return found


def _open_prompts(prompts: Sequence[Prompt]) -> dict[UUID, Prompt | Conflict]:
    """Lock the clients and return the prompts as they are now, or why they no longer wait for an answer."""
    _lock({prompt.client_id for prompt in prompts})
    keys = [prompt.pk for prompt in prompts]
    standing = {
        one.prompt_id: one
        for one in Decision.objects.select_related("coach").filter(prompt_id__in=keys, undone_at=None)
    }
    current = Prompt.objects.in_bulk(keys)
    return {
        key: decided_already(standing[key]) if key in standing else current.get(key) or prompt_gone() for key in keys
    }


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
    decision = _decision(prompt, coach, answer, reason, changes, proposal)
    decision.save(force_insert=True)
    return decision


def _decision(
    prompt: Prompt, coach: User, answer: str, reason: str, changes: list[dict[str, Any]], proposal: dict[str, Any]
) -> Decision:
    return Decision(
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
