"""The client's own progress: the worker's numbers, beside a table wherever there is a plot."""

import csv
import io

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from coaching.models import StrengthPoint, WeekSummary
from coaching.recompute import run
from logbook.models import BodyMass
from logbook.services.comments import comment_write
from tests.coaching import factories as make
from tests.coaching.test_plots import table_of

pytestmark = pytest.mark.django_db


@pytest.fixture
def me(world, exercises, client):
    """The client, trained for some weeks, signed in."""
    make.train(world.client, world.coach, exercises, weeks=8, seed=3)
    run.work_off(world.client.pk)
    client.force_login(world.client.user)
    return world.client


def page(client, **query):
    answer = client.get("/train/progress/", query)
    assert answer.status_code == 200
    return answer.content.decode()


def test_the_plot_has_its_numbers_in_a_table(client, me, exercises):
    points = StrengthPoint.objects.filter(client=me, exercise=exercises["bench-press"])
    html = page(client, exercise=exercises["bench-press"].pk)
    rows = table_of(html, "strength")
    assert sum(row[2] != "–" for row in rows) == points.values("date").distinct().count() > 0
    assert "with 90 % certainty" in html


def test_hard_sets_of_the_weeks_stand_beside_the_range(client, me):
    week = WeekSummary.objects.filter(client=me).order_by("-week")[1]
    rows = table_of(page(client, group="chest"), "volume")
    _day, low, high, _planned, done = rows[1]
    kept = week.volume["groups"]["chest"]
    assert (float(low), float(high), float(done)) == pytest.approx((kept["floor"], kept["ceiling"], kept["done"]))


def test_without_any_log_the_page_says_what_will_stand_here(client, world):
    client.force_login(world.client.user)
    html = page(client)
    assert "After your first sessions the numbers stand here" in html
    assert "No week has been counted yet" in html


def test_another_clients_numbers_are_not_shown(client, world, me, exercises):
    client.force_login(world.other_client.user)
    assert "Barbell bench press" not in page(client, exercise=exercises["bench-press"].pk)


def test_body_mass_is_shown_in_the_readers_unit(client, me):
    me.user.load_unit = "lb"
    me.user.save()
    day = make.monday(1)
    BodyMass.objects.filter(client=me).delete()
    BodyMass.objects.create(client=me, date=day, mass=176.5, unit="lb", mass_kg=80.06, edited_at=timezone.now())
    run.work_off(me.pk)
    assert [row[1] for row in table_of(page(client), "mass")] == ["176.5"]


def test_a_file_has_the_numbers_of_the_page_and_only_of_what_a_client_is_shown(client, me):
    answer = client.get("/train/progress/volume.csv", {"group": "chest", "weeks": 13})
    rows = list(csv.reader(io.StringIO(answer.content.decode())))
    assert rows[0] == ["week of", "range, from", "to", "planned", "done"]
    assert len(rows) - 1 == WeekSummary.objects.filter(client=me, week__gte=make.monday(12)).count()
    for name in ("load", "pain", "compliance", "effort", "nothing"):
        assert client.get(f"/train/progress/{name}.csv").status_code == 404


def test_what_the_coach_said_is_one_tap_away(client, me, world):
    comment_write(client=me, author=world.coach, text="Well done.", written_at=timezone.now())
    html = page(client)
    assert "1 new comment" in html
    assert 'href="/train/comments/"' in html


def test_cost_does_not_grow_with_the_history(client, me, world, exercises):
    def cost():
        page(client)
        with CaptureQueriesContext(connection) as queries:
            page(client)
        return len(queries)

    long = cost()
    StrengthPoint.objects.filter(client=me).exclude(exercise=exercises["curl"]).delete()
    WeekSummary.objects.filter(client=me).exclude(week=make.monday(1)).delete()
    assert long == cost() <= 14
