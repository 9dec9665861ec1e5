"""Accept several questions; each stands for itself, so that one conflict keeps no other from being done."""

from collections.abc import Sequence
from dataclasses import dataclass

from accounts.models import User
from coaching.many.rows import ManyRow
from coaching.models import Decision, Prompt
from coaching.services.conflict import Conflict
from coaching.services.decision import Acceptance, decisions_accept


@dataclass(frozen=True)
class Outcome:
    """Either a decision, or what stood in its way."""

    prompt: Prompt
    decision: Decision | None
    conflict: str = ""


def accept_many(*, rows: Sequence[ManyRow], coach: User, reason: str) -> list[Outcome]:
    """Accept each row's question, its form being valid; they are written together, and each stands for itself."""
    accepted = [Acceptance(row.prompt, row.form.cleaned_data["seen"], row.form.choice()) for row in rows]
    return [
        Outcome(row.prompt, None, found.message) if isinstance(found, Conflict) else Outcome(row.prompt, found)
        for row, found in zip(rows, decisions_accept(accepted=accepted, coach=coach, reason=reason), strict=True)
    ]
