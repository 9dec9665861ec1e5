"""What the week's board costs: 200 clients with three years of weeks, beside the same HTML from one raw query.

    .venv/bin/pytest -s bench/board.py

On a private PostgreSQL. The yardstick renders the same template from rows that one SQL statement fetched, so what is
compared is the way to the rows. Both are asked in turn, so that a busy machine slows both.
"""

import datetime as dt
import json
import statistics
from time import perf_counter

import pytest
from django.db import connection
from django.template.base import Template
from django.template.loader import render_to_string
from django.test.utils import CaptureQueriesContext, _TestState
from django.urls import reverse

from accounts.models import Client
from coaching.models import WeekSummary
from programs.models import PlannedSession
from tests.coaching import factories as make
from tests.coaching.test_board import KEPT, VOLUME, fill
from tests.conftest import quick_passwords, world  # noqa: F401 - fixtures

pytestmark = pytest.mark.django_db
CLIENTS, WEEKS, ROUNDS = 200, 156, 15
MOST_QUERIES, MOST_RATIO = 8, 2.0
TRENDS = {
    str(n): {"points": 20 - n, "recent": [80.0 + m for m in range(12)], "level_kg": [90, 91, 92],
             "slope_percent_week": [0.1, 0.3, 0.5], "code": "trend_rising", "params": {"low": 0.1, "high": 0.5}}
    for n in range(1, 19)
}  # fmt: skip
CHECK_INS = {"days": [{"day": make.monday().isoformat(), "total": 15, "median": 16, "state": "usual"}]}
RAW = """
    SELECT w.client_id, u.name, w.week, w.volume, w.compliance, w.trends, w.check_ins, w.urgency_reasons, w.urgency
    FROM coaching_weeksummary w JOIN accounts_client c ON c.id = w.client_id JOIN accounts_user u ON u.id = c.user_id
    WHERE w.week IN (%s, %s) ORDER BY w.urgency DESC, u.name LIMIT 50
"""


def history(weeks, coach):
    """Give every client `weeks` weeks of rows and of three planned sessions each."""
    clients = list(Client.objects.filter(weeks__isnull=False).distinct())
    base = {"volume": VOLUME, "compliance": KEPT, "load": {}, "inputs": {}, "rules": "x"}
    rows, planned = [], []
    for client in clients:
        plan = client.assignments.first() or make.make_assignment(client, coach, make.monday(weeks))
        for n in range(2, weeks):
            monday = make.monday(n)
            rows.append(WeekSummary(client=client, week=monday, as_of=monday, urgency=n % 40, **base))
            planned += [
                PlannedSession(
                    assignment=plan,
                    client=client,
                    date=monday + dt.timedelta(days=day),
                    day_name="Day",
                    block_name="Base",
                    block_number=1,
                    week_number=1,
                    day_number=1,
                )
                for day in (0, 2, 4)
            ]
    WeekSummary.objects.bulk_create(rows, batch_size=2000, ignore_conflicts=True)
    PlannedSession.objects.bulk_create(planned, batch_size=2000)
    WeekSummary.objects.filter(week__gte=make.monday(1)).update(trends=TRENDS, check_ins=CHECK_INS)
    with connection.cursor() as cursor:
        cursor.execute("ANALYZE")


def timed(work):
    start = perf_counter()
    result = work()
    return 1000 * (perf_counter() - start), result


def raw_page(context, request):
    """Fetch by one statement and render the same template with the same rows."""
    with connection.cursor() as cursor:
        cursor.execute(RAW, [make.monday(), make.monday(1)])
        for row in cursor.fetchall():
            [json.loads(one) for one in row[3:8] if isinstance(one, str)]
    return render_to_string("coaching/board.html", context, request=request)


@pytest.mark.skipif("connection.vendor != 'postgresql'", reason="asks PostgreSQL")
def test_the_board_beside_one_raw_query(client, world, monkeypatch):  # noqa: F811
    monkeypatch.setattr(Template, "_render", _TestState.saved_data.template_render)
    fill(world, CLIENTS)
    client.force_login(world.coach)
    counts = {}
    for weeks in (WEEKS // 10, WEEKS):
        history(weeks, world.coach)
        with CaptureQueriesContext(connection) as seen:
            client.get(reverse("board"))
        counts[weeks] = len(seen)
    monkeypatch.undo()
    context = client.get(reverse("board")).context
    flat = {name: context[name] for name in context.keys() - {"request", "csrf_token", "forloop"}}
    request = context["request"]
    monkeypatch.setattr(Template, "_render", _TestState.saved_data.template_render)
    ours, raw = [], []
    for number in range(ROUNDS + 2):
        taken = timed(lambda: client.get(reverse("board")))[0], timed(lambda: raw_page(flat, request))[0]
        if number >= 2:
            ours.append(taken[0])
            raw.append(taken[1])
    ratio = statistics.median(ours) / statistics.median(raw)
    print(f"\nqueries by weeks of history {counts}; board {statistics.median(ours):.0f} ms, ", end="")
    print(f"raw {statistics.median(raw):.0f} ms, ratio {ratio:.2f}")
    assert len(set(counts.values())) == 1
    assert max(counts.values()) <= MOST_QUERIES
    assert ratio <= MOST_RATIO
