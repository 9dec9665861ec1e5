"""Remedies are looked for without trying what cannot win: what is found is what trying everything finds."""

from itertools import count
from unittest.mock import patch

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from programs.document import Day, EditError, Slot, Week
from programs.document.edits.registry import apply_to_week
from programs.services.advice import gaps
from programs.services.advice.advise import FINDERS
from programs.services.advice.scene import Scene
from programs.services.tally import tally_week
from programs.services.tally_facts import Anatomy, ExerciseFacts
from programs.services.targets import default_ranges
from programs.services.week_sums import gaps_of, shares_of, week_sums
from programs.services.week_view import WeekDesk

GROUP_OF_HEAD = {
    "clavicular": "chest",
    "sternal": "chest",
    "long": "triceps",
    "lateral": "triceps",
    "upper-lat": "back",
    "lower-lat": "back",
    "grip": "forearms",
}
GROUPS = dict.fromkeys(GROUP_OF_HEAD.values(), "")
ANATOMY = Anatomy(
    groups={group: group for group in GROUPS},
    group_of_head=GROUP_OF_HEAD,
    muscle_of_head={head: head for head in [*GROUP_OF_HEAD, "free"]},
    head_names={head: head for head in [*GROUP_OF_HEAD, "free"]},
)
TARGETS = default_ranges("intermediate", ANATOMY.groups)


class PlainScene(Scene):
    """The law of the search, told at length: try every option from nothing, take the first of the least harmful."""

    def after(self, operation):
        keys = count()
        try:
            week = apply_to_week(self.desk.week, operation, lambda: f"try-{next(keys)}")
        except EditError:
            return None
        return week, week_sums(week, self.facts, self.shares, self.desk.weekdays)

    def gentlest(self, tries):
        return min(list(tries), key=lambda one: round(self.harm(one[-1]), 6), default=None)


def plain_left(scene, now, slot, here, there):
    days = [dict(day) for day in scene.desk.sums.days]
    for group, share in scene.shares[slot.exercise].groups.items():
        if group in days[here]:
            days[here][group] -= share * slot.sets[1]
        days[there][group] = days[there].get(group, 0) + share * slot.sets[1]
    return len(gaps.serious(scene, gaps_of(days, scene.desk.weekdays)))


def fact(pk, credits, long):
    return ExerciseFacts(
        pk=pk, name=f"exercise {pk}", equipment="bar", cautions=(), archived=False, one_sided=False, rep_s=4,
        rep_unit="", sides_in_turn=False, setup_s=60, credits=credits, long=frozenset(long),
    )  # fmt: skip


@st.composite
def scenes(draw):
    """Return the parts of a scene: a desk with a week of up to six days, and a library."""
    heads = st.sampled_from([*GROUP_OF_HEAD, "free"])
    credits = st.dictionaries(heads, st.sampled_from([0.25, 0.5, 0.75, 1.0, 1.0]), min_size=1, max_size=4)
    rows = draw(st.lists(st.tuples(credits, st.sets(heads, max_size=2)), min_size=3, max_size=10))
    facts = {pk: fact(pk, *row) for pk, row in enumerate(rows, 1)}
    known = draw(st.integers(1, len(facts)))
    numbers = count()

    def slot():
        low, rir = draw(st.integers(1, 9)), draw(st.integers(0, 6))
        exercise = draw(st.integers(1, known))
        return Slot(f"s{next(numbers)}", exercise, sets=(low, low + draw(st.integers(0, 1))), rir=(0, rir))

    days = [
        Day(f"d{number}", f"Day {number}", tuple(slot() for _ in range(draw(st.integers(0, 4)))))
        for number in range(draw(st.integers(1, 6)))
    ]
    week = Week("w", days=tuple(days))
    weekdays = draw(st.permutations(range(7)))[: len(days)]
    there = {pk: facts[pk] for pk in range(1, known + 1)}
    shares = shares_of(there.values(), ANATOMY)
    sums = week_sums(week, there, shares, weekdays)
    tally = tally_week(week, there, ANATOMY, TARGETS, weekdays)
    minutes = draw(st.sampled_from([15, 30, 90]))
    library = {pk: facts[pk] for pk in draw(st.permutations(list(facts)))}
    return WeekDesk(week, there, ANATOMY, TARGETS, weekdays, minutes, shares, sums, tally), library


def advice(scene):
    return [one for find in FINDERS for one in find(scene)]


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(scenes())
def test_the_short_search_finds_what_trying_everything_finds(parts):
    found = advice(Scene(*parts))
    with patch.object(gaps, "_left", plain_left):
        assert found == advice(PlainScene(*parts))


def test_an_option_without_harm_ends_the_search():
    scene = Scene(*_calm())
    tried = []
    harmless = scene.desk.sums
    assert scene.gentlest((tried.append(number) or (number, harmless)) for number in range(9)) == (0, harmless)
    assert tried == [0]


def _calm():
    facts = {1: fact(1, {"sternal": 1.0}, ())}
    week = Week("w", days=(Day("d", "d", (Slot("s", 1),)),))
    shares = shares_of(facts.values(), ANATOMY)
    sums = week_sums(week, facts, shares, [0])
    tally = tally_week(week, facts, ANATOMY, TARGETS, [0])
    return WeekDesk(week, facts, ANATOMY, TARGETS, [0], 90, shares, sums, tally), facts
