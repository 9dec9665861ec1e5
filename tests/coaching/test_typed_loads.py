"""A coach who works in the other unit reads a logged load as it was typed, with the conversion beside it."""

import csv
import html
import io
import re
import zipfile

import pytest
from django.urls import reverse

from coaching.models import FlagRow, StrengthPoint
from coaching.recompute import run
from logbook.models import SetLog
from programs.models import PlannedSlot
from programs.templatetags.loads import typed_in
from tests.coaching import factories as make

pytestmark = pytest.mark.django_db
TYPED = "50 lb (22.7 kg)"


@pytest.fixture
def desk(client, world, exercises):
    """The client typed 50 lb throughout; the coach, who works in kilograms, is signed in."""
    make.train(world.client, world.coach, exercises, weeks=8, fade=2, seed=3)
    SetLog.objects.update(load=50.0, unit="lb", load_kg=50 * 0.45359237)
    run.work_off(world.client.pk)
    client.force_login(world.coach)
    return client


def text(answer):
    assert answer.status_code == 200
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", "", html.unescape(answer.text)).replace("\u00a0", " "))


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ((50.0, "lb", "kg"), "50&nbsp;lb (22.7&nbsp;kg)"),
        ((22.5, "kg", "lb"), "22.5&nbsp;kg (49.6&nbsp;lb)"),
        ((22.5, "kg", "kg"), "22.5&nbsp;kg"),
        ((0.0, "lb", "kg"), "0&nbsp;lb (0&nbsp;kg)"),
    ],
)
def test_a_load_in_the_other_unit_stands_in_both(typed, words):
    assert typed_in(*typed) == words


def test_the_clients_page_and_the_session_say_both(desk, world):
    page = reverse("client-page", args=[world.client.pk])
    assert f"{TYPED} ×" in text(desk.get(page, {"week": make.monday(2).isoformat()}))
    session = world.client.sessions.latest("started_at")
    assert f"{TYPED} ×" in text(desk.get(reverse("performed-session", args=[session.pk])))
    desk.force_login(world.client.user)
    world.client.user.load_unit = "lb"
    world.client.user.save()
    own = text(desk.get(reverse("performed-session", args=[session.pk])))
    assert "50 lb ×" in own
    assert "kg" not in own


def test_the_plot_and_its_file_say_both(desk, world):
    assert TYPED in text(desk.get(reverse("client-strength", args=[world.client.pk])))
    file = desk.get(reverse("client-plot-file", args=[world.client.pk, "strength"])).content.decode()
    best = [row["best set"] for row in csv.DictReader(io.StringIO(file))]
    assert any(one.startswith(TYPED) for one in best)


def test_every_list_of_sets_behind_a_number_says_both(desk, world):
    why = f"/clients/{world.client.pk}/why/"
    point = StrengthPoint.objects.filter(inputs__body_mass=None).latest("date")
    slot = PlannedSlot.objects.filter(session__performed=None, exercise=point.exercise).latest("session__date")
    flag = FlagRow.objects.filter(rule_id__in=["reps.under_floor", "effort.same_work_lower_rir"]).first()
    for page in (f"strength/{point.session_id}/{point.exercise_id}", f"target/{slot.pk}", f"flag/{flag.pk}"):
        assert re.search(r"22\.(7|68) \(50 lb\)", text(desk.get(f"{why}{page}/"))), page


def test_the_export_keeps_what_was_typed_in_columns_of_its_own(desk, world):
    answer = desk.post(reverse("client-export", args=[world.client.pk]))
    files = zipfile.ZipFile(io.BytesIO(b"".join(answer.streaming_content)))
    name = next(one for one in files.namelist() if one.endswith("sets.csv"))
    rows = list(csv.DictReader(io.StringIO(files.read(name).decode())))
    assert {(row["load"], row["unit"], row["load_kg"][:5]) for row in rows} == {("50.0", "lb", "22.67")}
