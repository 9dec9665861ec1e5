"""The part of bench/scaling.py that runs within the set-up; each function prints one line of JSON."""

import json
import time
from datetime import timedelta

from django.conf import settings
from django.contrib.sessions.backends.db import SessionStore
from django.db import connection
from django.middleware.csrf import _get_new_csrf_string
from django.utils import timezone

from accounts.models import Client, User
from coaching.recompute import run
from logbook.models import Session, SetLog
from logbook.services.recompute import recompute_request

DERIVED = ("coaching_weeksummary", "coaching_strengthpoint", "coaching_flagrow", "coaching_prompt")


def sizes() -> None:
    """Bytes of the database by what they hold, and a set's share."""
    with connection.cursor() as cursor:
        cursor.execute("VACUUM ANALYZE")
        cursor.execute(
            "SELECT relname, pg_total_relation_size(c.oid) FROM pg_class c JOIN pg_namespace n ON n.oid = relnamespace "
            "WHERE relkind = 'r' AND nspname = 'public'"
        )
        tables = dict(cursor.fetchall())
    sets = SetLog.objects.count()
    log = tables["logbook_setlog"]
    derived = sum(tables[name] for name in DERIVED)
    plan = sum(size for name, size in tables.items() if name.startswith("programs_planned"))
    weeks = sum(client.weeks.count() for client in Client.objects.all())
    print(
        json.dumps(
            {
                "clients": Client.objects.count(),
                "client-weeks": weeks,
                "sets": sets,
                "bytes a set, its own row and indexes": round(log / sets),
                "bytes a set, with plan, derived rows and all else": round(sum(tables.values()) / sets),
                "bytes a client-week, derived": round(derived / weeks),
                "bytes a client-week, plan": round(plan / weeks),
                "bytes a client-week, everything": round(sum(tables.values()) / weeks),
            }
        )
    )


def _cookie(user: User, csrf: str) -> str:
    session = SessionStore()
    session["_auth_user_id"] = str(user.pk)
    session["_auth_user_backend"] = settings.AUTHENTICATION_BACKENDS[-1]
    session["_auth_user_hash"] = user.get_session_auth_hash()
    session.save()
    return f"{settings.SESSION_COOKIE_NAME}={session.session_key}; {settings.CSRF_COOKIE_NAME}={csrf}"


def doors() -> None:
    """Sign a coach and a client in, and begin a session for the client."""
    csrf = _get_new_csrf_string()
    client = Client.objects.filter(sessions__isnull=False).order_by("pk").first()
    exercise = client.planned_sessions.first().slots.first().exercise_id
    now = timezone.now()
    session = Session.objects.create(client=client, date=client.user.today(), started_at=now)
    coach = client.engagements.get(ended_on=None).coach.user
    print(
        json.dumps(
            {
                "csrf": csrf,
                "client": _cookie(client.user, csrf),
                "coach": _cookie(coach, csrf),
                "client_id": client.pk,
                "session": str(session.pk),
                "exercise": exercise,
            }
        )
    )


def recomputes() -> None:
    """Processor time of the worker for one logged session, and for making a client's whole history anew."""
    for client in Client.objects.all():
        run.work_off(client.pk)
    before, count = time.process_time(), 0
    for client in Client.objects.all():
        for back in range(4):
            recompute_request(client_id=client.pk, since=client.user.today() - timedelta(days=back), reason="bench")
            run.work_off(client.pk)
            count += 1
    once = (time.process_time() - before) / count
    before = time.process_time()
    weeks = sum(len(run.rebuild(client.pk)) for client in Client.objects.all())
    print(
        json.dumps(
            {
                "ms of processor time a recompute after a session": round(1000 * once, 1),
                "recomputes a core-second": round(1 / once, 1),
                "ms a client-week made anew": round(1000 * (time.process_time() - before) / weeks, 1),
            }
        )
    )
