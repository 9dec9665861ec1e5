"""Chosen questions as a list to confirm, with its sums."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any
from uuid import UUID

from django.db.models import Exists, OuterRef

from accounts import access
from accounts.models import User
from coaching.forms import AcceptForm
from coaching.forms_answers import answer_form
from coaching.models import Decision, Prompt
from coaching.reads.prompts import KINDS
from coaching.reads.ways_out import WaysOut, ways_out
from coaching.services.decision import digest
from programs.models import PlannedSlot

MOST_AT_ONCE = 50


@dataclass(frozen=True)
class ManyRow:
    """`sets` before and after, and `sessions`: of what is not begun."""

    prompt: Prompt
    form: AcceptForm
    sets: tuple[int, int]
    sessions: int


@dataclass(frozen=True)
class Many:
    kind: str
    rows: list[ManyRow] = field(default_factory=list)

    @property
    def sessions(self) -> int:
        return sum(row.sessions for row in self.rows)

    @property
    def sets(self) -> tuple[int, int]:
        return sum(row.sets[0] for row in self.rows), sum(row.sets[1] for row in self.rows)


def chosen_prompts(user: User, ids: Iterable[str], kind: str) -> list[Prompt]:
    """Return those of the questions that are of this kind, wait for an answer, and are the user's to answer; the door
    notes whose they are. An id that makes no sense is no question."""
    keys = {key for key in map(_key, ids) if key is not None}
    if kind not in KINDS or not keys:
        return []
    answered = Decision.objects.filter(prompt_id=OuterRef("pk"), undone_at=None)
    rows = Prompt.objects.writable_by(user).filter(~Exists(answered), pk__in=list(keys)[:MOST_AT_ONCE], kind=kind)
    found = list(rows.select_related("client__user", "client__practice").order_by("client__user__name", "pk"))
    for prompt in found:
        access.note_opened(user, prompt)
    return found


def _key(text: str) -> UUID | None:
    try:
        return UUID(text)
    except ValueError:
        return None


def many_of(kind: str, prompts: Sequence[Prompt], data: Any = None) -> Many:
    """Return the rows with a form each, filled with what is proposed."""
    slots = [one["slot"] for prompt in prompts for one in prompt.proposal["slots"]]
    unbegun = dict(PlannedSlot.objects.filter(pk__in=slots, session__performed=None).values_list("pk", "session"))
    ways = ways_out(prompts)
    return Many(kind, [_row(prompt, unbegun, data, ways) for prompt in prompts])


def _row(prompt: Prompt, unbegun: dict[int, int], data: Any, ways: Mapping[str, WaysOut]) -> ManyRow:
    left = [one for one in prompt.proposal["slots"] if one["slot"] in unbegun]
    sets = sum(one["sets"][0] for one in left), sum(one["sets"][1] for one in left)
    form = answer_form(prompt, digest(prompt.proposal), data, prefix=str(prompt.pk), ways=ways)
    return ManyRow(prompt, form, sets, len({unbegun[one["slot"]] for one in left}))
