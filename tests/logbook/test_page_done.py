"""What was done, for the client and for the coach who reads."""

import datetime as dt

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from tests.logbook.conftest import signed_in
from tests.logbook.factories import NOW, make_exercise, make_planned
from tests.logbook.test_page_today import text_of


@pytest.fixture
def done(gym):
    """A finished session with an edited set, a deleted one, a skip, a pain report and a note."""
    gym.planned = make_planned(gym.client, NOW.date(), {"exercise": gym.curl}, {"exercise": gym.row})
    gym.session = gym.start(planned=gym.planned.pk)
    curl, row = gym.planned.slots.all()
    first = gym.log(gym.session, slot=curl.pk, note="grip slipped")
    second = gym.log(gym.session, slot=curl.pk, number=2)
    gym.apply("set.edit", gym.later(), set=first, load=42.5, unit="kg", reps=9, rir=2)
    gym.apply("set.delete", gym.later(), set=second)
    gym.apply("slot.skip", session=gym.session, slot=row.pk, reason="taken")
    gym.apply(
        "pain.report", report="0b9dc2f4-6d1e-4a53-8f3c-0f5a3a6d7f10", session=gym.session, exercise=gym.curl.pk,
        site="elbow", side="left", score=6,
    )  # fmt: skip
    gym.apply("session.finish", gym.later(50), session=gym.session, session_rpe=7.5, minutes=50, note="windy")
    gym.url = f"/train/done/{gym.session}/"
    return gym


def test_coach_reads_everything_and_can_change_nothing_but_a_slip(done):
    page = text_of(signed_in(done.coach).get(done.url))
    for words in (
        "42.5 kg × 9, RIR 2", "before: 40 kg × 10, RIR 1", "grip slipped", "deleted", "skipped", "equipment taken",
        "Pain 6 of 10: elbow (left)", "7.5 of 10", "windy",
    ):  # fmt: skip
        assert words in page
    assert "Edit" not in page
    assert "Change or add" not in page


def test_client_can_go_on_to_change_it(done, phone):
    page = text_of(phone.get(done.url))
    assert "Edit" in page
    assert "Change or add something" in page


def test_strangers_get_404(done):
    for user in (done.colleague, done.outsider, done.other_client.user, done.nobody):
        assert signed_in(user).get(done.url).status_code == 404


def test_list_is_paged_and_latest_first(done, phone):
    for days in range(1, 25):
        done.start(NOW - dt.timedelta(days=days))
    page = phone.get("/train/done/")
    assert text_of(page).index("Day one") < text_of(page).index("Unplanned session")
    assert "Page 1 of 2" in text_of(page)
    assert "1 set · 50 min · effort 7.5/10" in text_of(page)
    assert len(phone.get("/train/done/?page=2").context["page"]) == 5


def test_last_time_is_the_session_before_not_a_later_one(done, phone):
    later = done.start(NOW + dt.timedelta(days=2))
    done.log(later, at=NOW + dt.timedelta(days=2), load=60)
    assert "first time" in text_of(phone.get(done.url))


def test_cost_does_not_grow(done, phone, django_assert_num_queries):
    counts = {}
    for url in ("/train/done/", done.url):
        with CaptureQueriesContext(connection) as few:
            phone.get(url)
        counts[url] = len(few)
    for n in range(5):
        done.start(NOW - dt.timedelta(days=n + 1))
        identity = done.log(done.session, make_exercise(f"extra-{n}", "dumbbell"), number=n + 5)
        done.apply("set.edit", done.later(n + 2), set=identity, load=22, unit="kg", reps=8, rir=1)
    for url, count in counts.items():
        with django_assert_num_queries(count):
            phone.get(url)
