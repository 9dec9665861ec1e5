"""The weekly board: one row a client, most urgent first, in a fixed number of queries."""

import datetime as dt
from dataclasses import dataclass
from typing import Any

from django.core.paginator import Page, Paginator
from django.db.models import Case, Count, Exists, OuterRef, Q, QuerySet, Subquery, Value, When
from django.db.models.functions import Coalesce

from accounts import access
from accounts.models import Client, Engagement, Membership, User
from coaching.models import Prompt, WeekSummary
from coaching.reads.named import exercises_of
from coaching.reads.prompts import KINDS, in_order, open_prompts
from coaching.reads.week_row import ATTENTION, WeekRow, week_row
from coaching.recompute.calendar import WEEK
from coaching.recompute.urgency import PROMPT_CODES
from logbook.models import Screening, UnreadComment
from periodization.screening import CLINICIAN_FIRST
from programs.sentences import Words, words_for

ROWS_A_PAGE = 25
SAID_AT_ONCE = 3
# What the row says elsewhere: muscles have a column of their own, and questions stand as questions.
IN_THE_ROW = {"groups_under", "groups_over", *PROMPT_CODES.values()}


@dataclass(frozen=True)
class Wanted:
    """What the board was asked for; `week` is a Monday."""

    week: dt.date
    today: dt.date
    name: str = ""
    attention: bool = False
    coach_id: int | None = None


@dataclass(frozen=True)
class BoardRow:
    """`week` is None until the worker has come to it; `before` is the week before."""

    client: Client
    week: WeekRow | None
    before: WeekRow | None
    parts: list[dict[str, Any]]
    questions: list[Prompt]

    @property
    def first(self) -> list[dict[str, Any]]:
        """What is said at once: the most pressing parts that the row does not show elsewhere, unless they are all."""
        telling = [part for part in self.parts if part["code"] not in IN_THE_ROW]
        return (telling or ([] if self.questions else self.parts))[:SAID_AT_ONCE]

    @property
    def rest(self) -> list[dict[str, Any]]:
        """The parts that wait behind the sum."""
        return [part for part in self.parts if part not in self.first]

    @property
    def points(self) -> int:
        return sum(part["points"] for part in self.parts)


@dataclass(frozen=True)
class Board:
    page: Page
    rows: list[BoardRow]
    words: Words

    @property
    def kinds(self) -> list[str]:
        """The kinds of questions that stand on the page, the most pressing first."""
        found = {prompt.kind for row in self.rows for prompt in row.questions}
        return [kind for kind in KINDS if kind in found]


def clients_for(user: User, wanted: Wanted) -> QuerySet[Client]:
    """Return the clients the user coaches, with `urgency`, `coach_name`, `unread` and `clinician`, most urgent first.

    `unread` is how many comments with the client the user has not read. `clinician`: the newest screening answers ask
    for a clinician's word, and none that says yes is recorded; these stand above all others.
    """
    urgency = WeekSummary.objects.filter(client=OuterRef("pk"), week=wanted.week).values("urgency")[:1]
    membership = access.membership_of(user)
    today = membership.practice.today() if membership else None
    running = Engagement.objects.filter(access.running(on=today), client=OuterRef("pk")).order_by("pk")
    unread = (
        UnreadComment.objects.filter(reader=user, client=OuterRef("pk"))
        .order_by()
        .values("client")
        .annotate(n=Count("pk"))
        .values("n")
    )
    answers = Screening.objects.filter(client=OuterRef("pk")).with_word().order_by("-answered_at", "-pk")
    clients = (
        access.clients_coached_by(user)
        .select_related("user")
        .annotate(
            urgency=Coalesce(Subquery(urgency), Value(-1)),
            unread=Coalesce(Subquery(unread), 0),
            outcome=Subquery(answers.values("outcome")[:1]),
            cleared=Subquery(answers.values("cleared")[:1]),
            coach_name=Subquery(running.values("coach__user__name")[:1]),
        )
        .annotate(
            clinician=Case(
                When(Q(outcome__in=CLINICIAN_FIRST) & (Q(cleared=None) | Q(cleared=False)), then=Value(True)),
                default=Value(False),
            )
        )
        .order_by("-clinician", "-urgency", "user__name", "pk")
    )
    if wanted.name:
        clients = clients.filter(Q(user__name__icontains=wanted.name) | Q(user__email__icontains=wanted.name))
    if wanted.attention:
        clients = clients.filter(Q(urgency__gte=ATTENTION) | Q(clinician=True))
    if wanted.coach_id:
        clients = clients.filter(Exists(running.filter(coach=wanted.coach_id)))
    return clients


def board(user: User, wanted: Wanted, number: str | None) -> Board:
    """Return one page of the board."""
    page = Paginator(clients_for(user, wanted), ROWS_A_PAGE).get_page(number)
    clients = list(page.object_list)
    both = (wanted.week, wanted.week - WEEK)
    summaries = WeekSummary.objects.filter(client__in=clients, week__in=both).defer(
        "inputs", "trends", "load", "check_ins", "body"
    )
    found = {(row.client_id, row.week): row for row in summaries}
    questions: dict[int, list[Prompt]] = {}
    for prompt in open_prompts(wanted.week, wanted.today).filter(client__in=clients).defer("inputs"):
        questions.setdefault(prompt.client_id, []).append(prompt)
    asked = {one for prompts in questions.values() for prompt in prompts for one in _asked_about(prompt)}
    words = words_for(user.load_unit, _exercises(found.values()) | asked)
    rows = [_row(client, wanted.week, found, in_order(questions.get(client.pk, ())), words) for client in clients]
    return Board(page, rows, words)


def _row(
    client: Client,
    monday: dt.date,
    found: dict[tuple[int, dt.date], WeekSummary],
    questions: list[Prompt],
    words: Words,
) -> BoardRow:
    summary = found.get((client.pk, monday))
    parts = list(summary.urgency_reasons) if summary else []
    # Answered a moment ago: the worker will drop the points, and the page need not wait for it.
    closed = set(PROMPT_CODES.values()) - {PROMPT_CODES[prompt.kind] for prompt in questions}
    parts = [part for part in parts if part["code"] not in closed]
    before = found.get((client.pk, monday - WEEK))
    return BoardRow(client, week_row(summary, words), week_row(before, words), parts, questions)


def _exercises(summaries: Any) -> set[str]:
    return {one for summary in summaries for part in summary.urgency_reasons for one in exercises_of(part)}


def _asked_about(prompt: Prompt) -> list[str]:
    """Return the id of the exercise that a question would exchange."""
    exercise = prompt.proposal.get("exercise")
    return [str(exercise)] if exercise else []


def coaches_of(user: User) -> list[Membership]:
    """Return the coaches whose clients an owner may sift by; empty for a coach, who sees only their own."""
    membership = access.membership_of(user)
    if membership is None or membership.role != Membership.Role.OWNER:
        return []
    running = access.running(on=membership.practice.today())
    rows = Membership.objects.filter(running, practice=membership.practice).select_related("user")
    return list(rows.order_by("user__name"))
