"""What was done the last time, exercise by exercise."""

import datetime as dt
from collections.abc import Collection
from typing import Any

from django.db.models import Max, Q, QuerySet
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from accounts.models import Client
from logbook.far_load import earlier_loads
from logbook.models import Session, SetLog
from logbook.reads.rows import set_row

# Bounded, so that the cost does not grow with the years; what is older says little about today.
LOOK_BACK = dt.timedelta(days=365)


def last_time(
    client: Client, exercise_ids: Collection[int], *, today: dt.date, before: Session | None = None
) -> dict[int, dict[str, Any]]:
    """Map exercise ids to {"date", "sets"}: working sets of the latest session with the exercise. Two queries.

    With `before` only sessions that began before that one count.
    """
    sets = SetLog.objects.filter(
        client=client, exercise__in=exercise_ids, deleted_at=None, warm_up=False, session__date__gte=today - LOOK_BACK
    )
    if before:
        sets = sets.filter(session__started_at__lt=before.started_at).exclude(session=before)
    latest = dict(sets.order_by().values_list("exercise").annotate(Max("session__started_at")))
    if not latest:
        return {}
    wanted = Q()
    for exercise, started_at in latest.items():
        wanted |= Q(exercise=exercise, session__started_at=started_at)
    found: dict[int, dict[str, Any]] = {}
    for row in sets.filter(wanted).select_related("session").order_by("number", "side", "performed_at"):
        entry = found.setdefault(row.exercise_id, {**_day(row.session.date), "sets": []})
        entry["sets"].append(set_row(row))
    return found


def loads_beside(row: SetLog) -> list[float]:
    """Return the loads, kg, that a logged set's is compared with: last time's working sets and its session's others."""
    last = last_time(row.client, [row.exercise_id], today=row.session.date, before=row.session)
    entry = {"last": last.get(row.exercise_id), "sets": [set_row(one) for one in _beside(row)]}
    return earlier_loads(entry, str(row.pk))


def _beside(row: SetLog) -> QuerySet[SetLog]:
    return SetLog.objects.filter(session=row.session_id, exercise=row.exercise_id)


def _day(date: dt.date) -> dict[str, str]:
    """The day for programs, and as the reader writes it: the phone and the server then say the same."""
    return {"date": date.isoformat(), "day": date_format(date, _("j M"))}
