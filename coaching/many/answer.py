"""Accept several questions; each stands for itself, so that one conflict keeps no other from being done."""

from collections.abc import Sequence
from dataclasses import dataclass

from accounts.models import User
from coaching.many.rows import ManyRow
from coaching.models import Decision, Prompt
from coaching.services.conflict import Conflict
from coaching.services.decision import decision_accept


@dataclass(frozen=True)
class Outcome:
    """Either a decision, or what stood in its way."""

    prompt: Prompt
    decision: Decision | None
    conflict: str = ""


def accept_many(*, rows: Sequence[ManyRow], coach: User, reason: str) -> list[Outcome]:
    """Accept each row's question, its form being valid, in a transaction of its own."""
    return [_accept(row, coach, reason) for row in rows]


def _accept(row: ManyRow, coach: User, reason: str) -> Outcome:
    known = {"seen": row.form.cleaned_data["seen"], "choice": row.form.choice()}
    try:
        return Outcome(row.prompt, decision_accept(prompt=row.prompt, coach=coach, reason=reason, **known))
    except Conflict as conflict:
        return Outcome(row.prompt, None, conflict.message)
