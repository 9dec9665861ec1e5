"""What the letters say, from derived rows alone.

A letter lies open in a mailbox: a coach's names clients and counts, and leaves pain, check-ins and every other word
about health to the pages behind the sign-in.
"""

import datetime as dt
from typing import Any

from accounts import access
from accounts.models import Client, Membership
from coaching.models import WeekSummary
from coaching.reads.prompts import open_prompts
from coaching.reads.week_row import ATTENTION, WeekRow, week_row
from coaching.recompute.calendar import WEEK
from logbook.reads.comments import unread_of
from programs.models import PlannedSession
from programs.sentences import words_for

NAMED = 10


def for_client(client: Client, summary: WeekSummary) -> dict[str, Any] | None:
    """Return what a client's letter says; None for a week in which nothing was planned or done."""
    compliance = summary.compliance
    if not (compliance["sessions_planned"] or compliance["sessions_done"] or compliance["sets_done"]):
        return None
    row = week_row(summary, words_for(client.user.load_unit))
    next_week = summary.week + WEEK
    planned = PlannedSession.objects.filter(
        client=client, cancelled_at=None, date__range=(next_week, next_week + dt.timedelta(days=6))
    )
    return {
        "compliance": compliance,
        "under": _names(row, "under"),
        "over": _names(row, "over"),
        "planned": list(planned.order_by("date", "pk")),
        "unread": unread_of(client, client.user).count,
    }


def _names(row: WeekRow | None, state: str) -> list[str]:
    return [group.name for group in row.groups if group.state == state] if row else []


def for_coach(membership: Membership, week: dt.date, now: dt.datetime) -> dict[str, Any] | None:
    """Return what a coach's letter says: their clients, counted, and the most urgent named; None without any.

    `so_far`: for how many the week still runs where they are, or was not worked out to its end.
    """
    today = membership.practice.day_of(now)
    engaged = membership.engagements.filter(access.running(on=today)).values("client")
    clients = Client.objects.filter(pk__in=engaged, practice=membership.practice)
    rows = list(
        WeekSummary.objects.filter(client__in=clients, week=week)
        .select_related("client__user")
        .only("client__user__name", "client__user__email", "compliance", "urgency", "week", "as_of")
        .order_by("-urgency", "client__user__name")
    )
    if not rows:
        return None
    questions = open_prompts(week + WEEK, today).filter(client__in=clients)
    asked = set(questions.values_list("client", flat=True))
    urgent = [row for row in rows if row.urgency >= ATTENTION]
    return {
        "clients": len(rows),
        "so_far": sum(1 for row in rows if row.as_of < week + WEEK),
        "sessions_done": sum(row.compliance["sessions_done"] for row in rows),
        "sessions_planned": sum(row.compliance["sessions_planned"] for row in rows),
        "untouched": sum(
            1 for row in rows if row.compliance["sessions_planned"] and not row.compliance["sessions_done"]
        ),
        "urgent": [(row.client, row.compliance, row.client_id in asked) for row in urgent[:NAMED]],
        "more": max(0, len(urgent) - NAMED),
    }
