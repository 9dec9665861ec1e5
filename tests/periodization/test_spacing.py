"""Gaps between exposures, done and planned."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from periodization.spacing import PlannedDay, exposure_gaps, gap_warnings, short_gaps

MONDAY = datetime(2026, 3, 2, 18, tzinfo=UTC)


def test_no_exposure_and_one_have_no_gap():
    assert exposure_gaps([]) == []
    assert exposure_gaps([(MONDAY, "chest", 3)]) == []


def test_gaps_are_per_group_and_in_order():
    exposures = [(MONDAY + timedelta(days=n), group, 3) for n, group in ((3, "chest"), (0, "chest"), (1, "back"))]
    assert [(g.group, g.hours) for g in exposure_gaps(exposures)] == [("chest", 72)]


def test_a_small_share_is_no_exposure():
    exposures = [
        (MONDAY, "arms", 3),
        (MONDAY + timedelta(days=1), "arms", 0.5),
        (MONDAY + timedelta(days=3), "arms", 3),
    ]
    assert [g.hours for g in exposure_gaps(exposures)] == [72]


def test_shares_of_one_session_are_added():
    exposures = [(MONDAY, "arms", 0.5), (MONDAY, "arms", 0.5), (MONDAY + timedelta(days=2), "arms", 1)]
    assert [g.hours for g in exposure_gaps(exposures)] == [48]


def test_hours_are_real_across_a_clock_change():
    zone = ZoneInfo("Europe/Berlin")
    before = datetime(2026, 3, 28, 18, tzinfo=zone)
    after = datetime(2026, 3, 29, 18, tzinfo=zone)  # the clocks went forward in the night
    assert exposure_gaps([(before, "chest", 3), (after, "chest", 3)])[0].hours == 23


def test_time_without_a_zone_is_refused():
    with pytest.raises(ValueError, match="zone"):
        exposure_gaps([(datetime(2026, 3, 2), "chest", 3)])  # noqa: DTZ001


@given(st.lists(st.tuples(st.integers(0, 400), st.sampled_from(["chest", "back"])), max_size=20))
def test_gaps_add_up_to_the_whole(moments):
    exposures = [(MONDAY + timedelta(hours=h), group, 2.0) for h, group in moments]
    gaps = exposure_gaps(exposures)
    for group in ("chest", "back"):
        hours = [h for h, g in moments if g == group]
        whole = sum(gap.hours for gap in gaps if gap.group == group)
        assert whole == pytest.approx(max(hours) - min(hours) if hours else 0)
    assert all(gap.hours > 0 for gap in gaps)


@given(st.lists(st.tuples(st.integers(0, 6), st.sampled_from(["chest", "back"])), max_size=10), st.integers(0, 6))
def test_turning_the_week_turns_the_warnings(days, by):
    def found(turned):
        plan = [PlannedDay((d + turned) % 7, {g: 2}) for d, g in days]
        return sorted((w.group, (w.first - turned) % 7, (w.second - turned) % 7, w.hours) for w in gap_warnings(plan))

    assert found(0) == found(by)


def test_two_sessions_on_one_weekday_count_as_one_exposure():
    plan = [PlannedDay(0, {"chest": 0.6}), PlannedDay(0, {"chest": 0.6}), PlannedDay(1, {"chest": 2})]
    assert short_gaps(plan) == [("chest", 0, 1, 24)]


def test_warning_carries_what_the_sentence_needs():
    warning = gap_warnings([PlannedDay(0, {"chest": 3}), PlannedDay(1, {"chest": 3})])[0]
    assert warning.reason.code == "group_due_too_soon"
    assert warning.reason.params == {"group": "chest", "hours": 24, "minimum_hours": 48}


def test_minimum_is_an_argument():
    plan = [PlannedDay(0, {"chest": 3}), PlannedDay(2, {"chest": 3})]
    assert gap_warnings(plan) == []
    assert len(gap_warnings(plan, minimum_hours=72)) == 1


@pytest.mark.parametrize("weekday", [-1, 7])
def test_a_day_outside_the_week_is_refused(weekday):
    with pytest.raises(ValueError, match="weekday"):
        gap_warnings([PlannedDay(weekday, {})])
