"""On which dates training days fall."""

import datetime as dt

import pytest

from programs.document import document_from_json
from programs.services.assignment_dates import dated_days, days_a_week, in_order, proposed_weekdays, spread_evenly
from tests.programs.factories import document, slot

MONDAY = dt.date(2026, 11, 30)


def make(*days, weeks=1):
    return document_from_json(document(*days, weeks=weeks))


TWO = make([slot("a", 1)], [slot("b", 1)], weeks=2)


def dates(doc, starts_on, weekdays):
    return [(one.date.isoformat(), one.week_number, one.day_number) for one in dated_days(doc, starts_on, weekdays)]


def test_each_day_falls_on_its_weekday_in_each_week():
    assert dates(TWO, MONDAY, [0, 3]) == [
        ("2026-11-30", 1, 1),
        ("2026-12-03", 1, 2),
        ("2026-12-07", 2, 1),
        ("2026-12-10", 2, 2),
    ]


def test_a_weekday_that_has_passed_falls_at_the_end_of_the_week_and_none_before_the_start():
    wednesday = MONDAY + dt.timedelta(days=2)
    assert [one[0] for one in dates(TWO, wednesday, [0, 3])][:2] == ["2026-12-07", "2026-12-03"]
    assert not in_order([0, 3], wednesday)
    assert in_order([0, 3], MONDAY)


def test_a_day_without_exercises_is_no_session_and_an_empty_week_still_passes():
    doc = make([slot("a", 1)], [])
    assert len(dates(doc, MONDAY, [0, 3])) == 1


@pytest.mark.parametrize(
    ("count", "days"), [(0, []), (1, [0]), (2, [0, 3]), (3, [0, 2, 4]), (4, [0, 1, 3, 5]), (7, list(range(7)))]
)
def test_weekdays_are_proposed_evenly_spread(count, days):
    assert spread_evenly(count) == days


def test_the_programs_own_weekdays_are_proposed_when_they_fit():
    assert days_a_week(TWO) == 2
    assert proposed_weekdays(TWO, [1, 5]) == [1, 5]
    assert proposed_weekdays(TWO, [1, 1]) == [0, 3]
    assert proposed_weekdays(TWO, [1]) == [0, 3]
