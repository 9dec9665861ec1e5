"""The page on the tally says what the code does."""

import pytest

from programs.document import Day, Slot, Week
from programs.models import Program
from programs.services.advice.advise import FINDERS
from programs.services.advice.heads import COVERED, TRAINED
from programs.services.week_balance import balance_of
from tests.programs.test_week_sums import desk, fact
from tests.published.tables import numbers, table


@pytest.mark.parametrize("row", table("tally", "tally-2"), ids=lambda r: f"{r['extension sets']} and {r['press sets']}")
def test_worked_balance(row):
    known = {1: fact(1, {"long": 1, "lateral": 0.5}, ["long"]), 2: fact(2, {"long": 0.5, "lateral": 1})}
    sets = int(row["extension sets"]), int(row["press sets"])
    days = [Day(f"d{n}", "", (Slot(f"s{n}", n, sets=(s, s)),) if s else ()) for n, s in enumerate(sets, 1)]
    (group,) = balance_of(desk(Week("w", days=tuple(days)), known, (0, 3))).groups
    assert group.sets == float(row["sets"])
    assert [head.per_cent for head in group.heads] == [int(row["long head"]), int(row["lateral head"])]
    assert group.long_per_cent == int(row["loaded long"])
    assert list(group.hours) == ([] if row["hours"] == "-" else numbers(row["hours"]))


def test_the_page_lists_what_is_looked_at_in_the_order_in_which_it_is_said():
    rows = {row["code"]: row for row in table("tally", "tally-1")}
    finders = ["too_close", "over_ceiling", "too_long", "under_floor", "uncovered", "never_long"]
    assert [find.__name__ for find in FINDERS] == finders
    assert list(rows) == ["gap", "over", "minutes", "under", "head", "long"]
    assert rows["minutes"]["bound"].startswith(f"{Program._meta.get_field('session_minutes').default} min")
    assert rows["head"]["bound"] == f"{COVERED:g} set; group {TRAINED:g} sets"
