"""Work off what waits for a client: one client at a time, requests gone only together with their result."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, replace
from uuid import UUID, uuid4

from django.db import transaction
from django.db.models import OuterRef, Subquery
from django.utils import timezone

from accounts.models import Client
from coaching.models import FlagRow, Prompt, StrengthPoint, WeekSummary
from coaching.recompute.calendar import FOR_EVER, as_of, reach_of, reached_by, runs_of, week_of, weeks_from
from coaching.recompute.compute import Others, compute
from coaching.recompute.load import load_log
from coaching.recompute.locked import first_day, lock_client
from coaching.recompute.prompts import KIND
from coaching.recompute.rules import fingerprint
from coaching.recompute.save import save
from logbook.models import RecomputeRequest
from programs.models import PlannedSlot


@dataclass
class Work:
    """What is to be done for a client as of `today`: `requests` are (id, since, reason), `runs` the weeks left."""

    today: dt.date
    rules: str
    requests: list[tuple[int, dt.date, str]]
    runs: list[list[dt.date]]


def work_off(client_id: int, now: dt.datetime | None = None) -> list[dt.date]:
    """Compute what waiting requests, a new day or a changed rule ask for; return the Mondays of the weeks written.

    One transaction a run of weeks: what one set reaches is one run, and years that were brought in let others write
    between their runs. The requests go with the last. A crash at any line leaves them where they were, and a second run
    of this does again what it did not come to. Requests that arrive meanwhile were not read, so they are not deleted.

    Two workers never share a client: the one that comes later takes over where the other stands, with what was asked
    since, and the other stops after its run. So nobody waits for a worker that has died.
    """
    written: list[dt.date] = []
    token, work = uuid4(), None
    while work is None or work.runs:
        work, weeks = _run(client_id, now, work, token)
        written += weeks
    return written


@transaction.atomic
def _run(client_id: int, now: dt.datetime | None, work: Work | None, token: UUID) -> tuple[Work, list[dt.date]]:
    """Write the next run of weeks; without `work`, find out what there is to do first."""
    client = lock_client(client_id)
    if client is None or (work is not None and client.recompute_by != token):
        return Work(dt.date.min, "", [], []), []
    there, asked, others = _known(client)
    if work is None:
        today = client.user.day_of(now or timezone.now())
        requests = list(RecomputeRequest.objects.filter(client=client).values_list("pk", "since", "reason"))
        rules = fingerprint(client)
        weeks = _due(client, today, rules, [(since, reason) for _, since, reason in requests], there)
        work = Work(today, rules, requests, runs_of(weeks))
    run, left = (work.runs[0], work.runs[1:]) if work.runs else ([], [])
    if run:
        log = load_log(client, run[0], run[-1], work.today)
        save(client, compute(client, log, run, asked, others), work.rules)
    _note(client, token if left else None)
    if left:
        _come_to(left[0][0], work.requests)
    elif work.requests:
        RecomputeRequest.objects.filter(pk__in=[pk for pk, _, _ in work.requests]).delete()
    return replace(work, runs=left), run


def _note(client: Client, token: UUID | None) -> None:
    """Note in the locked client's row which worker goes on with it, None when there is no more to do."""
    if client.recompute_by != token:
        Client.objects.filter(pk=client.pk).update(recompute_by=token)


def _come_to(monday: dt.date, requests: list[tuple[int, dt.date, str]]) -> None:
    """Let requests that reach for ever begin where the work stands, so that a worker that is stopped by its time limit
    is not stopped at the same place again. What others reach depends on where they begin."""
    for_ever = [pk for pk, _, reason in requests if reach_of(reason) == FOR_EVER]
    RecomputeRequest.objects.filter(pk__in=for_ever, since__lt=monday).update(since=monday)


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


def _known(client: Client) -> tuple[dict[dt.date, tuple[str, dt.date]], dict[dt.date, str], Others]:
    """Return by Monday of each row there is: by which rules and as of which day it was made, and what it asked."""
    kind = Prompt.objects.filter(client=client, week=OuterRef("week"), kind=KIND).values("inputs__kind")[:1]
    rows = WeekSummary.objects.filter(client=client).annotate(asked=Subquery(kind))
    there, asked, others = {}, {}, {}
    for week, made_by, known, kind_asked, questions in rows.values_list("week", "rules", "as_of", "asked", "questions"):
        there[week] = made_by, known
        others[week] = {UUID(key): (one, dt.date.fromisoformat(last)) for key, (one, last) in questions.items()}
        if kind_asked:
            asked[week] = kind_asked
    return there, asked, others


def _due(
    client: Client,
    today: dt.date,
    rules: str,
    requests: Sequence[tuple[dt.date, str]],
    there: dict[dt.date, tuple[str, dt.date]],
) -> list[dt.date]:
    """Return the Mondays to compute; drop weeks before the first day.

    Due is what a request reaches, and every week of the client's time whose row is missing, was made by other rules,
    or knows less than it could by now.
    """
    all_weeks = weeks_from(first_day(client, today), today)
    if early := [week for week in there if week < all_weeks[0]]:
        WeekSummary.objects.filter(client=client, week__in=early).delete()
    reached = reached_by([(since, reach_of(reason)) for since, reason in requests], today)
    if requests:
        reached.add(week_of(today))
    return [week for week in all_weeks if week in reached or there.get(week) != (rules, as_of(week, today))]
