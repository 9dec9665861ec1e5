"""Target ranges: defaults, order, overrides."""

import pytest

from periodization.targets import DEFAULTS, STANDARD_PRIORITY, TargetRange, standard_priority, standing, target_range

ORDER = ["maintain", "normal", "focus"]


def test_incidental_groups_are_never_under_their_range():
    for status in DEFAULTS:
        for group, priority in STANDARD_PRIORITY.items():
            if priority == "incidental":
                assert target_range(status, standard_priority(group), group).floor == 0


def test_main_groups_are_normal_where_the_coach_said_nothing():
    for group in ("chest", "lats", "side-delt", "biceps", "triceps", "quadriceps", "hamstrings", "glutes", "calves"):
        assert standard_priority(group) == "normal"


@pytest.mark.parametrize("status", DEFAULTS)
def test_more_priority_is_never_fewer_sets(status):
    ranges = [target_range(status, priority, "chest") for priority in ORDER]
    assert [r.floor for r in ranges] == sorted(r.floor for r in ranges)
    assert [r.ceiling for r in ranges] == sorted(r.ceiling for r in ranges)
    assert all(r.floor < r.ceiling for r in ranges)


@pytest.mark.parametrize("priority", ORDER)
def test_more_training_age_is_never_fewer_sets(priority):
    ranges = [target_range(status, priority, "chest") for status in ("novice", "intermediate", "advanced")]
    assert [r.floor for r in ranges] == sorted(r.floor for r in ranges)


def test_the_coach_overrides_one_group_only():
    own = {"chest": (4, 6)}
    assert target_range("novice", "focus", "chest", own) == TargetRange(4, 6, "coach")
    assert target_range("novice", "focus", "back", own) == target_range("novice", "focus", "back")


@pytest.mark.parametrize("bad", [(6, 4), (-1, 4)])
def test_impossible_range_is_refused(bad):
    with pytest.raises(ValueError, match="chest"):
        target_range("novice", "normal", "chest", {"chest": bad})


def test_unknown_status_or_priority_is_refused():
    with pytest.raises(ValueError, match="Unknown training status"):
        target_range("expert", "normal", "chest")
    with pytest.raises(ValueError, match="priority"):
        target_range("novice", "much", "chest")


@pytest.mark.parametrize(
    ("sets", "word"), [(0, "under"), (9.5, "under"), (10, "inside"), (16, "inside"), (16.5, "over")]
)
def test_bounds_belong_to_the_range(sets, word):
    assert standing(sets, TargetRange(10, 16, "chosen")) == word
