"""Work off what waits for a client: one client at a time, requests gone only together with their result."""

import datetime as dt
from collections.abc import Sequence
from uuid import UUID

from django.db import transaction
from django.db.models import OuterRef, Subquery
from django.utils import timezone

from accounts.models import Client
from coaching.models import FlagRow, Prompt, StrengthPoint, WeekSummary
from coaching.recompute.calendar import as_of, reach_of, reached_by, runs_of, week_of, weeks_from
from coaching.recompute.compute import Others, compute
from coaching.recompute.load import load_log
from coaching.recompute.locked import first_day, lock_client
from coaching.recompute.prompts import KIND
from coaching.recompute.rules import fingerprint
from coaching.recompute.save import save
from logbook.models import RecomputeRequest
from programs.models import PlannedSlot


@transaction.atomic
def work_off(client_id: int, now: dt.datetime | None = None) -> list[dt.date]:
    """Compute what waiting requests, a new day or a changed rule ask for; return the Mondays of the weeks written.

    One transaction: a crash at any line leaves the requests where they were, and a second run finds nothing to do.
    Requests that arrive meanwhile were not read, so they are not deleted.
    """
    client = lock_client(client_id)
    if client is None:
        return []
    today = client.user.day_of(now or timezone.now())
    requests = list(RecomputeRequest.objects.filter(client=client).values_list("pk", "since", "reason"))
    rules = fingerprint(client)
    weeks, asked, others = _due(client, today, rules, [(since, reason) for _, since, reason in requests])
    for run in runs_of(weeks):
        log = load_log(client, run[0], run[-1], today)
        derived = compute(client, log, run, asked, others)
        save(client, derived, rules)
        asked, others = derived.asked, derived.others
    if requests:
        RecomputeRequest.objects.filter(pk__in=[pk for pk, _, _ in requests]).delete()
    return weeks


@transaction.atomic
def rebuild(client_id: int, now: dt.datetime | None = None) -> list[dt.date]:
    """Throw away every derived row of a client and make them again from the log; decisions and history stay.

    Targets of begun sessions are a record of what the client was shown, and stay too.
    """
    client = lock_client(client_id)
    if client is None:
        return []
    for model in (WeekSummary, StrengthPoint, FlagRow, Prompt):
        model.objects.filter(client=client).delete()
    PlannedSlot.objects.filter(session__client=client, session__performed=None).update(
        target_load_kg=None, target_reps=None, target_reason=None
    )
    return work_off(client_id, now)


def _due(
    client: Client, today: dt.date, rules: str, requests: Sequence[tuple[dt.date, str]]
) -> tuple[list[dt.date], dict[dt.date, str], Others]:
    """Return the Mondays to compute and the prompts there are; drop weeks before the first day.

    Due is what a request reaches, and every week of the client's time whose row is missing, was made by other rules,
    or knows less than it could by now.
    """
    all_weeks = weeks_from(first_day(client, today), today)
    kind = Prompt.objects.filter(client=client, week=OuterRef("week"), kind=KIND).values("inputs__kind")[:1]
    rows = WeekSummary.objects.filter(client=client).annotate(asked=Subquery(kind))
    there, asked, others = {}, {}, {}
    for week, made_by, known, kind_asked, questions in rows.values_list("week", "rules", "as_of", "asked", "questions"):
        there[week] = made_by, known
        others[week] = {UUID(key): (one, dt.date.fromisoformat(last)) for key, (one, last) in questions.items()}
        if kind_asked:
            asked[week] = kind_asked
    if early := [week for week in there if week < all_weeks[0]]:
        WeekSummary.objects.filter(client=client, week__in=early).delete()
    reached = reached_by([(since, reach_of(reason)) for since, reason in requests], today)
    if requests:
        reached.add(week_of(today))
    due = [week for week in all_weeks if week in reached or there.get(week) != (rules, as_of(week, today))]
    return due, asked, others
