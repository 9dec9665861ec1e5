"""The pages of plots: each plot has its table and its file with the same numbers, and none costs more after years."""

import csv
import datetime as dt
import html
import io
import json
import re

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coaching.models import FlagRow, StrengthPoint, WeekSummary
from coaching.plots.file import csv_file
from coaching.plots.plot import Plot, Series
from coaching.recompute import run
from logbook.models import CheckIn, SetLog
from tests.coaching import factories as make
from tests.coaching.once import once

pytestmark = pytest.mark.django_db
PLOTS = {
    "client-volume": ("volume", "heads"),
    "client-strength": ("strength", "sides"),
    "client-sessions": ("compliance", "effort", "load"),
    "client-well-being": ("check-ins", "mass", "pain"),
}


def table_of(page, name):
    """The cells of a plot's table, newest row first."""
    figure = page.split(f'data-plot="{name}"')[1].split("</figure>")[0]
    body = figure.split("<tbody>")[1].split("</tbody>")[0]
    rows = [re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", row, re.S) for row in body.split("</tr>")[:-1]]
    return [[html.unescape(re.sub(r"<[^>]+>", "", cell)).strip() for cell in row] for row in rows]


def data_of(page, name):
    return json.loads(page.split(f'<script id="plot-data-{name}" type="application/json">')[1].split("</script>")[0])


def train(world, exercises):
    """Give the client training with pain, masses and check-ins."""
    make.train(world.client, world.coach, exercises, weeks=12, fade=2, seed=3)
    session = world.client.sessions.order_by("-date").first()
    make.report_pain(session, exercises["curl"], 6)
    make.weigh(world.client, make.monday(2) + dt.timedelta(days=1), 81.5)
    run.work_off(world.client.pk)


made, copied, world, exercises = once(train)


@pytest.fixture
def desk(client, world):
    """The coach of the trained client is signed in."""
    client.force_login(world.coach)
    return client


def open_page(desk, world, name, **query):
    answer = desk.get(reverse(name, args=[world.client.pk]), query)
    assert answer.status_code == 200
    return answer.content.decode()


def one_sided(world):
    return SetLog.objects.filter(client=world.client, side="left").first().exercise_id


def asked_for(world, name):
    return {"client-strength": {"exercise": one_sided(world)}, "client-volume": {"group": "delts"}}.get(name, {})


@pytest.mark.parametrize("name", PLOTS)
def test_picture_table_and_file_tell_the_same_numbers(desk, world, name):
    query = asked_for(world, name)
    page = open_page(desk, world, name, **query)
    shown = [plot for plot in PLOTS[name] if f'id="plot-data-{plot}"' in page]
    assert set(PLOTS[name]) - set(shown) <= {"heads"}
    for plot in shown:
        drawn, table = data_of(page, plot), table_of(page, plot)[::-1]
        answer = desk.get(reverse("client-plot-file", args=[world.client.pk, plot]), query)
        assert answer["Content-Type"].startswith("text/csv")
        head, *lines = list(csv.reader(io.StringIO(answer.content.decode())))
        assert len(lines) == len(table) == len(drawn["days"]) > 0
        for series in drawn["series"]:
            labels = [re.sub(r" \(.*\)$", "", one) for one in head]
            values = [None if line[labels.index(series["label"])] == "" else float(line[labels.index(series["label"])])
                      for line in lines]  # fmt: skip
            assert values == [None if one is None else pytest.approx(one) for one in series["values"]]
        assert [line[0] for line in lines] == [
            dt.datetime.fromtimestamp(day, dt.UTC).date().isoformat() for day in drawn["days"]
        ]


def test_volume_is_that_of_the_weeks_rows_and_leads_to_its_reasons(desk, world):
    page = open_page(desk, world, "client-volume", group="chest", weeks=13)
    week = WeekSummary.objects.get(client=world.client, week=make.monday(3))
    row = next(row for row in table_of(page, "volume") if row[0] == f"{week.week.day} {week.week:%b %Y}")
    assert float(row[4]) == pytest.approx(week.volume["groups"]["chest"]["done"])
    assert reverse("why", args=[world.client.pk, "volume", f"{week.week.isoformat()}/chest"]) in page


def test_both_sides_are_compared_with_an_interval(desk, world):
    page = open_page(desk, world, "client-strength", exercise=one_sided(world))
    newest = table_of(page, "sides")[0]
    point = StrengthPoint.objects.filter(client=world.client, exercise=one_sided(world)).latest("date")
    assert float(newest[3].replace("−", "-")) == pytest.approx(point.inputs["sides"]["percent"][1], abs=0.05)


def test_loads_are_in_the_readers_unit_in_page_and_file(desk, world, exercises):
    world.coach.load_unit = "lb"
    world.coach.save()
    query = {"exercise": exercises["bench-press"].pk}
    assert "session&#x27;s e1RM (lb)" in open_page(desk, world, "client-strength", **query)
    answer = desk.get(reverse("client-plot-file", args=[world.client.pk, "strength"]), query).content.decode()
    point = StrengthPoint.objects.filter(client=world.client, exercise=exercises["bench-press"]).latest("date")
    row = next(row for row in csv.reader(io.StringIO(answer)) if row[0] == point.date.isoformat())
    assert float(row[2]) == pytest.approx(point.e1rm_kg / 0.45359237, abs=0.06)


def test_pain_is_told_by_site_with_its_caution(desk, world):
    page = open_page(desk, world, "client-well-being")
    assert ">elbow</a></th>" in page
    assert "Sinewright does not diagnose" in page


@pytest.mark.parametrize("name", PLOTS)
@pytest.mark.parametrize("until", ["yesterday", "9999-12-31", "0001-01-01", ""])
def test_a_stretch_that_makes_no_sense_is_not_asked_for(desk, world, name, until):
    open_page(desk, world, name, until=until, weeks="1000", exercise="no", group="<b>")


@pytest.mark.parametrize("name", PLOTS)
def test_an_earlier_stretch_shows_other_weeks(desk, world, name):
    page = open_page(desk, world, name, until=make.monday(30).isoformat(), weeks=13)
    assert "plot-data-" not in page


@pytest.mark.parametrize("name", [*PLOTS, "client-decisions"])
def test_a_client_without_any_log_has_every_page(client, world, name):
    client.force_login(world.colleague)
    assert client.get(reverse(name, args=[world.other_client.pk])).status_code == 200


def test_nothing_is_computed_when_a_page_opens(desk, world, monkeypatch):
    """The pages read derived rows: without them there is nothing, whatever the log holds."""
    WeekSummary.objects.all().delete()
    StrengthPoint.objects.all().delete()
    FlagRow.objects.all().delete()
    for name in PLOTS:
        assert "plot-data-" not in open_page(desk, world, name)
    assert CheckIn.objects.exists()


@pytest.mark.parametrize(("name", "most"), [(name, 12) for name in PLOTS])
def test_cost_is_the_same_with_ten_years_of_history(desk, world, name, most):
    def count():
        with CaptureQueriesContext(connection) as seen:
            open_page(desk, world, name, **asked_for(world, name))
        return [query["sql"][:90] for query in seen.captured_queries]

    few = count()
    row = WeekSummary.objects.filter(client=world.client).order_by("week").last()
    weeks = []
    for n in range(1, 520):
        copy = WeekSummary.objects.get(pk=row.pk) if n == 1 else weeks[0]
        weeks.append(WeekSummary(**{f.attname: getattr(copy, f.attname) for f in row._meta.fields if f.name != "id"}))
        weeks[-1].week = make.monday(20 + n)
    WeekSummary.objects.bulk_create(weeks)
    many = count()
    assert len(many) == len(few) <= most, many


def test_a_file_runs_no_formula_in_a_spreadsheet():
    day = dt.date(2024, 5, 6)
    plot = Plot("x", "X", [day], [Series("set", ["=1+1"]), Series("kg", [-2.5], unit="kg")])
    assert csv_file(plot, "x").content.decode().splitlines() == ["day,set,kg (kg)", "2024-05-06,'=1+1,-2.5"]


def test_a_load_typed_with_a_nought_too_many_does_not_flatten_the_picture():
    days = [dt.date(2026, 11, 2), dt.date(2026, 11, 9)]
    band = [Series("from", [90, 92], "low"), Series("to", [100, 102], "high")]
    far = Plot("e1rm", "e1RM", days, [Series("e1RM", [95, 960], "points"), *band], may_leave_out=True)
    assert far.limits == (66, 126)
    assert far.outside == 1
    assert far.data["series"][0]["values"] == [95, 960]
    assert far.rows[0]["cells"][0]["text"] == "960"
    kept = Plot("total", "Total", days, far.series)
    assert kept.limits is None
    assert kept.outside == 0
