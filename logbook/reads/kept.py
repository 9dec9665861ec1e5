"""Which session pages a phone should keep, and whether its copies are still right."""

import datetime as dt
import hashlib
import json
from typing import Any

from django.db.models import Q
from django.urls import reverse
from django.utils.formats import date_format
from django.utils.translation import get_language
from django.utils.translation import gettext as _

from accounts.models import Client
from logbook.models import Session
from logbook.phone_files import release
from logbook.reads.last_time import last_time
from logbook.reads.screening import standing_of
from logbook.reads.sheet import sheet_for
from logbook.reads.swaps import listed_substitutes
from logbook.reads.upcoming import upcoming

# Begun sessions of this many days stay, since they may have to be gone on with.
BEGUN_DAYS = 7
# Whoever never finishes a session must not pay for it with every page opened.
MOST_BEGUN = 5


def kept_pages(client: Client, *, today: dt.date, days: int = 14) -> list[dict[str, Any]]:
    """Return the sessions' pages by day, then the check-in's: addresses, name, and a version.

    The version changes when the page would say something else. Planned sessions that have not begun cost the same few
    queries however many there are; a begun one, of which there is rarely more than one, costs a sheet.
    """
    # Where no session may begin, there is no page to keep: its address leads to the questions.
    closed = standing_of(client, today=today).closed
    plan = upcoming(client, today=today, days=days)
    exercises = {entry["exercise"]["id"] for row in plan["sessions"] for entry in row["exercises"]}
    common = [release(), get_language(), plan["unit"], plan["body_mass"], _swaps(client, exercises, today)]
    pages = [_planned(row, [*common, plan["ladders"]]) for row in plan["sessions"] if not (closed or row["started"])]
    since = today - dt.timedelta(days=BEGUN_DAYS)
    begun = Session.objects.filter(Q(finished_at=None, date__gte=since) | Q(date=today), client=client)
    for session in begun.select_related("client__user", "planned").order_by("-started_at")[:MOST_BEGUN]:
        pages.append(_begun(session, common, today))
    pages.sort(key=lambda page: (page["date"], page["session"]))
    form = _page("check-in", [reverse("check-in")], today, "", False, common)
    return [*pages, {**form, "is_session": False}]


def _swaps(client: Client, exercises: set[int], today: dt.date) -> list[Any]:
    """Return which substitutes are offered, and when each was done last."""
    substitutes = listed_substitutes(client, exercises, today=today) if exercises else {}
    last = last_time(client, {row.pk for rows in substitutes.values() for row in rows}, today=today)
    return [
        (exercise, [(row.pk, row.name, last.get(row.pk)) for row in rows])
        for exercise, rows in sorted(substitutes.items())
    ]


def _planned(row: dict[str, Any], common: list[Any]) -> dict[str, Any]:
    urls = [reverse("planned-session", args=[row["planned"]]), reverse("session-page", args=[row["session"]])]
    return _page(row["session"], urls, dt.date.fromisoformat(row["date"]), row["day_name"], False, [*common, row])


def _begun(session: Session, common: list[Any], today: dt.date) -> dict[str, Any]:
    urls = [reverse("session-page", args=[session.pk])]
    if session.planned_id:
        urls.append(reverse("planned-session", args=[session.planned_id]))
    sheet = sheet_for(session.client, today=today, session=session)
    name = session.planned.day_name if session.planned else ""
    return _page(str(session.pk), urls, session.date, name, True, [*common, sheet.data])


def _page(session: str, urls: list[str], date: dt.date, name: str, started: bool, seen: list[Any]) -> dict[str, Any]:
    version = hashlib.sha256(json.dumps(seen, sort_keys=True, default=str).encode()).hexdigest()[:16]
    return {
        "session": session,
        "urls": urls,
        "date": date.isoformat(),
        "day": date_format(date, _("D j M")),
        "name": name,
        "started": started,
        "is_session": True,
        "version": version,
    }
