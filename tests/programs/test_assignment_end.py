"""A last day that is still to come can be corrected, and taken back."""

import datetime as dt

import pytest
from django.urls import reverse

from programs.services.assignment_end import EndError, assignment_end, assignment_reopen
from programs.services.assignment_move import assignment_pause
from tests.programs.revision_fixture import begin, make_gym


@pytest.fixture
def gym(world):
    return make_gym(world)


def after(gym, days):
    return gym.today + dt.timedelta(days=days)


def due(gym):
    return [
        (one - gym.today).days
        for one in gym.assignment.sessions.filter(cancelled_at=None).values_list("date", flat=True)
    ]


def test_a_later_last_day_brings_back_what_the_end_cancelled(gym):
    assignment_end(assignment=gym.assignment, last_day=after(gym, 1))
    assert due(gym) == [-7, -4, 0]
    assignment_end(assignment=gym.assignment, last_day=after(gym, 8))
    assert due(gym) == [-7, -4, 0, 3, 7]
    assignment_end(assignment=gym.assignment, last_day=after(gym, 4))
    assert due(gym) == [-7, -4, 0, 3]
    assignment_reopen(assignment=gym.assignment)
    assert due(gym) == [-7, -4, 0, 3, 7, 10, 14, 17]
    assert (gym.assignment.status, gym.assignment.ended_on) == ("active", None)


def test_what_a_pause_had_cancelled_before_stays_cancelled(gym):
    assignment_pause(assignment=gym.assignment, since=gym.today)
    assignment_end(assignment=gym.assignment, last_day=after(gym, 8))
    assignment_reopen(assignment=gym.assignment)
    assert due(gym) == [-7, -4]


def test_an_end_that_is_over_stays(gym):
    assignment_end(assignment=gym.assignment, last_day=after(gym, -1))
    with pytest.raises(EndError):
        assignment_reopen(assignment=gym.assignment)


def test_what_comes_back_from_an_earlier_version_is_offered_the_later_one(gym):
    assignment_end(assignment=gym.assignment, last_day=after(gym, 1))
    gym.edit("prescribe", slot="w2s1", sets="5")
    gym.bring()
    assert gym.session("w2d1").slots.first().sets == 5
    assignment_reopen(assignment=gym.assignment)
    assert gym.assignment.program_version == 1
    begin(gym.session("w2d1"))
    gym.bring()
    gym.assignment.refresh_from_db()
    assert gym.assignment.program_version == gym.program.version


def act(browser, gym, **fields):
    return browser.post(reverse("assignment-change", args=[gym.assignment.pk]), fields)


def test_the_page_offers_it_until_the_last_day_is_over(client, gym):
    client.force_login(gym.coach)
    page = reverse("assignment-detail", args=[gym.assignment.pk])
    act(client, gym, action="end", since=after(gym, 1).isoformat())
    assert "Correct the last day" in client.get(page).content.decode()
    assert act(client, gym, action="end", since=after(gym, 8).isoformat()).status_code == 302
    assert act(client, gym, action="reopen").status_code == 302
    act(client, gym, action="end", since=after(gym, -1).isoformat())
    assert 'name="action"' not in client.get(page).content.decode()
    assert act(client, gym, action="reopen").status_code == 422
    assert act(client, gym, action="end", since=after(gym, 8).isoformat()).status_code == 422
