"""The weekly board: one row a client, most urgent first, in a fixed number of queries."""

import datetime as dt
from dataclasses import dataclass
from typing import Any

from django.core.paginator import Page, Paginator
from django.db.models import Case, Count, DateField, Exists, OuterRef, Q, QuerySet, Subquery, Value, When, Window
from django.db.models.functions import Coalesce

from accounts import access
from accounts.models import Client, Engagement, User
from accounts.zones import zones_before
from coaching.models import Prompt, WeekSummary
from coaching.reads.lifts import main_lifts
from coaching.reads.named import exercises_of
from coaching.reads.prompts import KINDS, in_order, open_prompts
from coaching.reads.week_row import ATTENTION, WeekRow, week_row
from coaching.recompute.calendar import WEEK
from coaching.recompute.prompts import topic_of
from coaching.recompute.urgency import PROMPT_CODES
from logbook.models import Screening, UnreadComment
from periodization.screening import CLINICIAN_FIRST
from programs.models import PlannedSession
from programs.sentences import Words, words_for
from programs.services.fit_since import closed_count

ROWS_A_PAGE = 25
# Whom nobody has trained for so long has left: an owner finds them in the list of clients, not among the week's work.
LEFT_AFTER = 4 * WEEK
GROUPS = {"block": "block", "coach": "coach_name"}
SAID_AT_ONCE = 3
# What the row says elsewhere: muscles have a column of their own, and questions stand as questions.
IN_THE_ROW = {"groups_under", "groups_over", *PROMPT_CODES.values()}


@dataclass(frozen=True)
class Wanted:
    """What the board was asked for; `week` is a Monday, `today` the reader's own day at `now`."""

    week: dt.date
    today: dt.date
    now: dt.datetime
    name: str = ""
    attention: bool = False
    coach_id: int | None = None
    kind: str = ""
    group: str = ""
    rows: int = ROWS_A_PAGE


@dataclass(frozen=True)
class BoardRow:
    """`week` is None until the worker has come to it; `before` is the week before `monday`'s.

    `monday` is the board's week, or the one before for a client in whose calendar the board's has not begun.
    """

    client: Client
    monday: dt.date
    week: WeekRow | None
    before: WeekSummary | None
    parts: list[dict[str, Any]]
    questions: list[Prompt]
    group: str = ""
    # Their own day, where it is not yet in the board's week.
    still: dt.date | None = None

    @property
    def previous(self) -> dt.date:
        return self.monday - WEEK

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
    """Return the clients the user coaches and who have not left, with `urgency`, `coach_name`, `block`, `planned`,
    `unread`, `closed` and `clinician`, most urgent first, group by group where groups are wanted.

    `monday` is the week that the client's row is about (BoardRow). `block` is that of the week's first session that is
    planned, or of the next; `planned` says whether there is one. `unread` is how many comments with the client the user
    has not read, `closed` how many planned exercises their limits close. `clinician`: the newest screening answers ask
    for a clinician's word, and none that says yes is recorded; these stand above all others.
    """
    week = Case(
        When(user__time_zone__in=zones_before(wanted.week, wanted.now), then=Value(wanted.week - WEEK)),
        default=Value(wanted.week),
        output_field=DateField(),
    )
    urgency = WeekSummary.objects.filter(client=OuterRef("pk"), week=OuterRef("monday")).values("urgency")[:1]
    membership = access.membership_of(user)
    today = membership.practice.today() if membership else None
    running = Engagement.objects.filter(access.running(on=today), client=OuterRef("pk")).order_by("pk")
    first = [GROUPS[wanted.group]] if wanted.group in GROUPS else []
    planned = PlannedSession.objects.filter(client=OuterRef("pk"), cancelled_at=None, date__gte=wanted.week)
    unread = (
        UnreadComment.objects.filter(reader=user, client=OuterRef("pk"))
        .order_by()
        .values("client")
        .annotate(n=Count("pk"))
        .values("n")
    )
    answers = Screening.objects.filter(client=OuterRef("pk")).with_word().order_by("-answered_at", "-pk")
    trained = Engagement.objects.filter(client=OuterRef("pk"))
    lately = trained.filter(Q(ended_on=None) | Q(ended_on__gte=(today or wanted.today) - LEFT_AFTER))
    clients = (
        access.clients_coached_by(user)
        .filter(Exists(lately) | ~Exists(trained))
        .select_related("user")
        .annotate(monday=week)
        .annotate(
            urgency=Coalesce(Subquery(urgency), Value(-1)),
            unread=Coalesce(Subquery(unread), 0),
            closed=closed_count("pk", wanted.today),
            outcome=Subquery(answers.values("outcome")[:1]),
            cleared=Subquery(answers.values("cleared")[:1]),
            coach_name=Coalesce(Subquery(running.values("coach__user__name")[:1]), Value("")),
            block=Coalesce(Subquery(planned.order_by("date", "pk").values("block_name")[:1]), Value("")),
            planned=Exists(planned),
        )
        .annotate(
            clinician=Case(
                When(Q(outcome__in=CLINICIAN_FIRST) & (Q(cleared=None) | Q(cleared=False)), then=Value(True)),
                default=Value(False),
            )
        )
        .order_by(*first, "-clinician", "-urgency", "user__name", "pk")
    )
    if wanted.name:
        clients = clients.filter(Q(user__name__icontains=wanted.name) | Q(user__email__icontains=wanted.name))
    if wanted.attention:
        clients = clients.filter(Q(urgency__gte=ATTENTION) | Q(clinician=True))
    if wanted.coach_id:
        clients = clients.filter(Exists(running.filter(coach=wanted.coach_id)))
    if wanted.kind:
        asked = open_prompts(wanted.week, wanted.today).filter(client=OuterRef("pk"), kind=wanted.kind)
        clients = clients.filter(Exists(asked.order_by()))
    return clients


def _page(clients: QuerySet[Client], rows: int, number: str | None) -> Page:
    """Return a page with its number of pages, in one query (more for a page that is not there)."""
    paginator = Paginator(clients, rows)
    wanted = int(number) if number and number.isdecimal() and len(number) < 6 else 1
    start = max(wanted - 1, 0) * rows
    found = list(clients.annotate(total=Window(Count("pk")))[start : start + rows])
    if not found:
        return paginator.get_page(number)
    paginator.count = found[0].total
    return Page(found, max(wanted, 1), paginator)


def board(user: User, wanted: Wanted, number: str | None) -> Board:
    """Return one page of the board."""
    page = _page(clients_for(user, wanted), wanted.rows, number)
    clients = list(page.object_list)
    weeks = {monday for client in clients for monday in (client.monday, client.monday - WEEK)}
    summaries = WeekSummary.objects.filter(client__in=clients, week__in=weeks).defer(
        "inputs", "load", "body", "questions"
    )
    found = {(row.client_id, row.week): row for row in summaries}
    questions: dict[int, list[Prompt]] = {}
    for prompt in open_prompts(wanted.week, wanted.today).filter(client__in=clients).defer("inputs"):
        questions.setdefault(prompt.client_id, []).append(prompt)
    asked = {one for prompts in questions.values() for prompt in prompts for one in _asked_about(prompt)}
    words = words_for(user.load_unit, _exercises(found.values()) | asked)
    rows = [_row(client, wanted, found, in_order(questions.get(client.pk, ())), words) for client in clients]
    return Board(page, rows, words)


def _row(
    client: Client,
    wanted: Wanted,
    found: dict[tuple[int, dt.date], WeekSummary],
    questions: list[Prompt],
    words: Words,
) -> BoardRow:
    monday = client.monday
    summary = found.get((client.pk, monday))
    parts = list(summary.urgency_reasons) if summary else []
    # Answered a moment ago: the worker will drop the points, and the page need not wait for it.
    closed = set(PROMPT_CODES.values()) - {PROMPT_CODES[topic_of(one.kind, one.proposal)] for one in questions}
    parts = [part for part in parts if part["code"] not in closed]
    before = found.get((client.pk, monday - WEEK))
    group = getattr(client, GROUPS[wanted.group]) if wanted.group in GROUPS else ""
    still = client.user.day_of(wanted.now) if monday < wanted.week else None
    return BoardRow(client, monday, week_row(summary, words), before, parts, questions, group, still)


def _exercises(summaries: Any) -> set[str]:
    said = {one for summary in summaries for part in summary.urgency_reasons for one in exercises_of(part)}
    return said | {lift.exercise for summary in summaries for lift in main_lifts(summary)}


def _asked_about(prompt: Prompt) -> list[str]:
    """Return the id of the exercise that a question would exchange."""
    exercise = prompt.proposal.get("exercise")
    return [str(exercise)] if exercise else []
