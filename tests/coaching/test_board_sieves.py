"""What the week's board is sifted, grouped and kept by, and what a row says of lifts and check-ins."""

import datetime as dt

import pytest
from django.urls import reverse

from coaching.models import SavedView, WeekSummary
from coaching.recompute import run
from coaching.services.saved_view import MOST_VIEWS
from tests.coaching import factories as make
from tests.coaching.test_board import fill, names, page, several, summary  # noqa: F401 - fixture

pytestmark = pytest.mark.django_db
THIS = make.monday()
SAVE = reverse("view-save")


def trend(code, points=8, level=80.0, rate=0.4):
    return {
        "points": points,
        "recent": [70.0, 75.0, level],
        "level_kg": [level - 2, level, level + 2],
        "slope_percent_week": [rate - 0.1, rate, rate + 0.1],
        "code": code,
        "params": {},
    }


def test_the_main_lifts_are_said_in_words_with_a_small_line(client, world, exercises):
    squat, press = str(exercises["squat"].pk), str(exercises["bench-press"].pk)
    few = {"points": 2, "level_kg": None, "slope_percent_week": None, "code": "trend_too_few", "params": {}}
    trends = {squat: trend("trend_rising"), press: trend("trend_flat", points=6), str(exercises["curl"].pk): few}
    summary(world.client, trends=trends)
    text = page(client, world.coach).text
    assert text.index(exercises["squat"].name) < text.index(exercises["bench-press"].name)
    assert "+0.4 % a week" in text
    assert 'aria-label="3 sessions, e1RM from 70 to 80 kg"' in text
    assert exercises["curl"].name not in text


def test_the_worker_keeps_the_latest_sessions_of_a_trend(world, exercises):
    make.train(world.client, world.coach, exercises, weeks=8)
    run.work_off(world.client.pk)
    kept = WeekSummary.objects.get(client=world.client, week=THIS).trends[str(exercises["squat"].pk)]
    assert len(kept["recent"]) == min(12, kept["points"])


def test_check_ins_stand_against_the_clients_own_usual(client, world):
    day = {"day": THIS.isoformat(), "total": 11, "median": 16, "state": "below"}
    summary(world.client, check_ins={"days": [day, day | {"total": 12}]})
    text = page(client, world.coach).text
    assert "below usual" in text
    assert "12, usually 16" in text
    assert "below on 2 of 2 days" in text


def test_rows_stand_by_block_and_the_most_urgent_first_in_each(client, world, several, exercises):  # noqa: F811
    anna, bert = several
    for one, block in ((anna, "Base"), (bert, "Peak"), (world.client, "Base")):
        assignment = make.make_assignment(one, world.coach, THIS)
        session = make.make_day(assignment, THIS + dt.timedelta(days=6), [(exercises["squat"], 3)], 1)
        session.block_name = block
        session.save()
    response = page(client, world.coach, group="block")
    assert names(response) == ["Anna", "Clemens", "Bert"]
    assert response.text.index("Base</th>") < response.text.index("Peak</th>")


def test_the_owner_can_group_by_coach(client, world, several):  # noqa: F811
    groups = [row.group for row in page(client, world.owner, group="coach").context["board"].rows]
    assert groups == sorted(groups)
    assert str(world.coach) in groups


def test_a_kind_of_question_sifts_the_rows(client, world):
    fill(world, 2)
    assert len(names(page(client, world.coach, kind="deload"))) == 2
    assert names(page(client, world.coach, kind="swap")) == []


def test_fifty_rows_can_stand_on_a_page_and_a_page_that_is_not_there_is_the_last(client, world):
    fill(world, 59)
    assert len(names(page(client, world.coach, rows=50))) == 50
    beyond = page(client, world.coach, rows=50, page=9)
    assert len(names(beyond)) == 10
    assert beyond.context["page"].number == 2
    assert page(client, world.coach, page="x").context["page"].number == 1
    assert page(client, world.coach, page="0").context["page"].number in (1, 3)


def test_a_view_is_kept_by_name_shown_as_a_link_and_removed(client, world):
    client.force_login(world.coach)
    client.post(SAVE, {"name": "Urgent", "query": "attention=on&page=3&nonsense=1"})
    view = SavedView.objects.get(membership=world.coach_membership)
    assert (view.name, view.query) == ("Urgent", "attention=on")
    assert 'href="/week/?attention=on"' in client.get(reverse("board")).text
    client.post(SAVE, {"name": "Urgent", "query": "kind=deload"})
    assert list(SavedView.objects.values_list("query", flat=True)) == ["kind=deload"]
    assert page(client, world.owner).context["views"] == []
    client.force_login(world.coach)
    client.post(reverse("view-remove", args=[view.pk]))
    assert not SavedView.objects.exists()


def test_a_view_needs_a_name_and_there_are_only_so_many(client, world):
    client.force_login(world.coach)
    assert "Give the view a name" in client.post(SAVE, {"name": "", "query": "q=a"}, follow=True).text
    for number in range(MOST_VIEWS):
        SavedView.objects.create(membership=world.coach_membership, name=str(number))
    assert "remove one first" in client.post(SAVE, {"name": "more", "query": "q=a"}, follow=True).text
    assert SavedView.objects.count() == MOST_VIEWS
