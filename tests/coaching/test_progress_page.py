"""The client's own progress: the worker's numbers, beside a table wherever there is a plot."""

import re

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from coaching.models import StrengthPoint, WeekSummary
from coaching.recompute import run
from logbook.models import BodyMass
from tests.coaching import factories as make

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
    assert 'id="trend-plot"' in html
    table = html.split('aria-label="Sessions"')[1].split("</table>")[0]
    assert len(re.findall("<tr>", table)) - 1 == points.count() > 0
    assert "with 90 % certainty" in html


def test_hard_sets_of_the_weeks_stand_beside_the_range(client, me):
    week = WeekSummary.objects.filter(client=me).order_by("-week")[1]
    done = week.volume["groups"]["chest"]["done"]
    html = page(client)
    row = html.split('<th scope="row">chest</th>')[1].split("</tr>")[0]
    cells = re.findall(r'<td class="n">([^<]*)</td>', row)
    assert len(cells) == 5  # four weeks and the range
    assert float(cells[2]) == pytest.approx(done, abs=0.06)


def test_without_any_log_the_page_says_what_will_stand_here(client, world):
    client.force_login(world.client.user)
    html = page(client)
    assert "After your first sessions the numbers stand here" in html
    assert "No week has been counted yet" in html


def test_another_clients_numbers_are_not_shown(client, world, me, exercises):
    client.force_login(world.other_client.user)
    assert "Barbell bench press" not in page(client, exercise=exercises["bench-press"].pk)


def test_body_mass_is_shown_as_typed(client, me):
    today = timezone.now()
    BodyMass.objects.filter(client=me).delete()
    BodyMass.objects.create(client=me, date=today.date(), mass=176.5, unit="lb", mass_kg=80.06, edited_at=today)
    assert "176.5 lb" in page(client)


def test_cost_does_not_grow_with_the_history(client, me, world, exercises):
    def cost():
        page(client)
        with CaptureQueriesContext(connection) as queries:
            page(client)
        return len(queries)

    long = cost()
    StrengthPoint.objects.filter(client=me).exclude(exercise=exercises["curl"]).delete()
    WeekSummary.objects.filter(client=me).exclude(week=make.monday(1)).delete()
    assert long - cost() <= 1
