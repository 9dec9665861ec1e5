"""Everything on a client's page of one week."""

import datetime as dt
from dataclasses import dataclass

from django.core.paginator import Page

from accounts.models import Client, User
from coaching.models import FlagRow, Prompt, WeekSummary
from coaching.reads.check_ins import CheckInDay, check_in_days
from coaching.reads.named import exercises_of
from coaching.reads.plan_done import Day, plan_and_done
from coaching.reads.prompts import in_order, open_prompts
from coaching.reads.proposal import Proposal, exercises_in, proposal_of
from coaching.reads.week_row import WeekRow, week_row
from coaching.services.decision import digest
from logbook.reads.comments import thread_of
from logbook.reads.screening import Standing, standing_of
from logbook.reads.slips import Slip, recent_slips
from programs.models import Assignment
from programs.sentences import Words, words_for
from programs.services.adaptation_words import fit_names
from programs.services.fit_since import Since, since_fitted


@dataclass(frozen=True)
class Question:
    """An open prompt with its numbers; `seen` is what accepting sends back."""

    prompt: Prompt
    proposal: Proposal
    seen: str


@dataclass(frozen=True)
class ClientDesk:
    week: WeekRow | None
    flags: list[FlagRow]
    questions: list[Question]
    days: list[Day]
    check_ins: list[CheckInDay]
    thread: Page
    assignments: list[Assignment]
    today: dt.date
    words: Words
    screening: Standing
    since: list[Since]
    slips: list[Slip]


def client_desk(client: Client, user: User, monday: dt.date, today: dt.date, number: str | None) -> ClientDesk:
    """Read the page of the week of `monday`, with page `number` of what was said about it."""
    deferred = ("inputs", "trends", "urgency_reasons", "body")
    summary = WeekSummary.objects.filter(client=client, week=monday).defer(*deferred).first()
    flags = list(FlagRow.objects.filter(client=client, week=monday))
    flags.sort(key=lambda flag: (("stop", "act", "watch").index(flag.severity), flag.rule_id, flag.subject))
    asked = in_order(
        open_prompts(monday, today).filter(client=client).select_related("client__user", "client__practice")
    )
    exercises = {one for flag in flags for one in exercises_of(flag)}
    assignments = list(Assignment.objects.filter(client=client).not_over(today).order_by("starts_on", "pk"))
    since = since_fitted(client, assignments, today)
    others = fit_names() if any(one.changed for one in since) else {}
    words = words_for(user.load_unit, exercises.union(*(exercises_in(prompt.proposal) for prompt in asked)), others)
    return ClientDesk(
        week_row(summary, words),
        flags,
        [Question(prompt, proposal_of(prompt.proposal, words), digest(prompt.proposal)) for prompt in asked],
        plan_and_done(client, monday, today),
        check_in_days(summary),
        thread_of(client, user, number, week=monday),
        assignments,
        today,
        words,
        standing_of(client, today=today),
        since,
        recent_slips(client, today),
    )
