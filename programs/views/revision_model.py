"""What bringing a version would do, client by client, as the page shows it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from programs.document.difference_words import Names
from programs.models import Assignment
from programs.services.revision_claims import claims_on
from programs.services.revision_closed import closed_by
from programs.services.revision_plan import (
    ADAPTED,
    CANCELLED,
    KEPT,
    LATE,
    LOGGED,
    RUNNING,
    UNKNOWN,
    LeftAlone,
    RevisionPlan,
    SessionStep,
)
from programs.views.revision_lines import Line, SessionChange, dates_words, exercise_ids, lines_of, names_of, slot_texts

WHY: Mapping[str, Promise] = {
    LOGGED: _("logged already"),
    RUNNING: _("running now"),
    CANCELLED: _("cancelled for this client"),
    ADAPTED: _("this client’s adaptations decide it"),
    KEPT: _("changed for this client"),
    LATE: _("new, but would lie before today or before what has begun"),
    UNKNOWN: _("this copy does not say which version it was made from; assign the program anew"),
}


@dataclass(frozen=True, slots=True)
class Alone:
    """What is left alone for one reason."""

    why: str | Promise
    dates: str


@dataclass(frozen=True, slots=True)
class Offer:
    """A session whose plan was changed for the client and that the new version changes too: kept unless ticked."""

    session: int
    date: date
    day: str
    who: str
    texts: Sequence[str]


@dataclass(frozen=True, slots=True)
class ClientChange:
    assignment: Assignment
    lines: Sequence[Line]
    offers: Sequence[Offer]
    alone: Sequence[Alone]
    closed: Sequence[str]
    unknown: bool
    count: int  # sessions that are written

    @property
    def possible(self) -> bool:
        """Whether the version can be brought to this client."""
        return not self.closed and not self.unknown


def client_changes(plans: Iterable[RevisionPlan]) -> list[ClientChange]:
    """Return what each plan does, in words; five queries, however many there are."""
    many = list(plans)
    closed = closed_by(many)
    claims = claims_on([plan.assignment.client_id for plan in many])
    changes = {plan.assignment.pk: [change_of(step) for step in plan.steps] for plan in many}
    names = names_of(exercise_ids(one for some in changes.values() for one in some))
    return [_client(plan, changes[plan.assignment.pk], closed, claims, names) for plan in many]


def change_of(step: SessionStep) -> SessionChange:
    """Return a step as a change; what is only offered is not part of it."""
    kind = "made" if step.session is None else "cancelled" if step.cancels else "changed"
    before = step.session.day_name if step.session and "day_name" in step.fields else ""
    slots = [(one.before, one.after) for one in (slot.resolved(False) for slot in step.slots) if one is not None]
    mark = step.fields.get("is_deload") if step.session is not None else None
    return SessionChange(kind, step.date, step.day_name, step.before, before, mark, slots)


def alone_of(rows: Iterable[LeftAlone]) -> list[Alone]:
    """Put together what is left alone for the same reason."""
    together: dict[str, list[LeftAlone]] = {}
    for one in rows:
        together.setdefault(one.why, []).append(one)
    result = []
    for why, some in together.items():
        days = [one.date for one in some if one.date is not None]
        named = ", ".join(sorted({one.day for one in some if one.day}))
        result.append(Alone(WHY.get(why, why), dates_words(days) if days else named))
    return result


def _client(
    plan: RevisionPlan,
    changes: Sequence[SessionChange],
    closed: Mapping[int, list[str]],
    claims: Mapping[int, str],
    names: Names,
) -> ClientChange:
    kept = [step.offered and step.cancels for step in plan.steps]
    written = [one for one, stays in zip(changes, kept, strict=True) if not stays]
    return ClientChange(
        assignment=plan.assignment,
        lines=lines_of(written, names),
        offers=[_offer(step, claims, names) for step in plan.steps if step.offered],
        alone=alone_of(plan.left_alone),
        closed=closed.get(plan.assignment.pk, []),
        unknown=plan.unknown,
        count=len(written),
    )


def _offer(step: SessionStep, claims: Mapping[int, str], names: Names) -> Offer:
    rows = [slot for slot in step.slots if slot.offered]
    who = next((claims[slot.row.pk] for slot in rows if slot.row and slot.row.pk in claims), "")
    texts = [text for slot in rows for text in slot_texts(slot.before, slot.after, names)]
    session = step.session
    return Offer(session.pk if session else 0, step.before or step.date, step.day_name, who, texts)
