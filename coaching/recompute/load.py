"""Read one client's bounded stretch of log and plan: a fixed number of queries, whatever the history."""

import datetime as dt

from django.db.models import F, Q, QuerySet

from accounts.models import Client
from coaching.models import Decision
from coaching.recompute.calendar import HORIZON, LOOKBACK, MASS_VALID, WEEK, last_day
from coaching.recompute.catalog import load_exercises
from coaching.recompute.rows import (
    CheckInRow,
    DecisionRow,
    Log,
    MassRow,
    PainRow,
    SessionRow,
    SetRow,
    SlotRow,
)
from logbook.models import BodyMass, CheckIn, PainReport, Session, SetLog
from programs.models import PlannedSlot


def load_log(client: Client, first: dt.date, last: dt.date, today: dt.date) -> Log:
    """Read what the weeks from Monday `first` to Monday `last` may look at. Every order is total: results repeat."""
    start, end = first - LOOKBACK, last_day(last, today)
    sessions = Session.objects.filter(client=client, date__gte=start, date__lte=end)
    sets = _sets(client, start, end)
    slots = _slots(client, start, last + WEEK + HORIZON)
    return Log(
        client_id=client.pk,
        today=today,
        sessions=tuple(
            SessionRow(*row)
            for row in sessions.order_by("date", "id").values_list("id", "date", "planned_id", "session_rpe", "minutes")
        ),
        sets=sets,
        slots=slots,
        check_ins=tuple(
            CheckInRow(*row)
            for row in CheckIn.objects.filter(client=client, date__gte=start, date__lte=end)
            .order_by("date", "id")
            .values_list("id", "date", "fatigue", "sleep", "soreness", "stress", "mood", "sore_groups")
        ),
        pains=_pains(client, start, end),
        masses=tuple(
            MassRow(*row)
            for row in BodyMass.objects.filter(client=client, date__gte=start - MASS_VALID, date__lte=end)
            .order_by("date", "id")
            .values_list("id", "date", "mass_kg")
        ),
        decisions=_decisions(client, start),
        exercises=load_exercises({row.exercise_id for row in (*sets, *slots)}, client, today),
    )


def _sets(client: Client, start: dt.date, end: dt.date) -> tuple[SetRow, ...]:
    rows = SetLog.objects.filter(
        client=client, session__date__gte=start, session__date__lte=end, deleted_at=None
    ).order_by("session__date", "session_id", "performed_at", "number", "side", "id")
    return tuple(
        SetRow(*row)
        for row in rows.values_list(
            "id",
            "session_id",
            "session__date",
            "slot_id",
            "exercise_id",
            "number",
            "side",
            "warm_up",
            "load_kg",
            "reps",
            "rir",
            "performed_at",
        )
    )


def _slots(client: Client, start: dt.date, end: dt.date) -> tuple[SlotRow, ...]:
    rows: QuerySet[PlannedSlot] = PlannedSlot.objects.filter(
        Q(session__performed__isnull=False) | Q(session__cancelled_at=None),
        session__client=client,
        session__date__gte=start,
        session__date__lt=end,
    ).order_by("session__date", "session_id", "position")
    return tuple(
        SlotRow(*row)
        for row in rows.annotate(performed_on=F("session__performed__date")).values_list(
            "id",
            "session_id",
            "session__date",
            "session__is_deload",
            "performed_on",
            "exercise_id",
            "sets",
            "reps_min",
            "reps_max",
            "rir_min",
            "rir_max",
            "target_load_kg",
            "target_reps",
            "target_reason",
            "session__block_number",
            "session__week_number",
            "start_load_kg",
        )
    )


def _pains(client: Client, start: dt.date, end: dt.date) -> tuple[PainRow, ...]:
    """Read reports a day wider than needed: their day is the client's, and is worked out from the time later."""
    since = dt.datetime.combine(start - dt.timedelta(days=1), dt.time(), dt.UTC)
    until = dt.datetime.combine(end + dt.timedelta(days=2), dt.time(), dt.UTC)
    rows = PainReport.objects.filter(client=client, reported_at__gte=since, reported_at__lt=until)
    return tuple(
        PainRow(*row)
        for row in rows.order_by("reported_at", "id").values_list(
            "id", "reported_at", "session__date", "exercise_id", "site", "score", "side"
        )
    )


def _decisions(client: Client, start: dt.date) -> tuple[DecisionRow, ...]:
    rows = Decision.objects.filter(client=client, undone_at=None, week__gte=start).order_by("week", "id")
    return tuple(DecisionRow(*row) for row in rows.values_list("id", "prompt_id", "kind", "week", "answer", "proposal"))
