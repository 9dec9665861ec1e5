"""The cheap sums by which changes are tried are the sums of the law of counting."""

from hypothesis import given
from hypothesis import strategies as st

from programs.document import Day, Slot, Week
from programs.services.tally import tally_week
from programs.services.tally_facts import Anatomy, ExerciseFacts
from programs.services.targets import default_ranges
from programs.services.week_balance import balance_of
from programs.services.week_sums import shares_of, week_sums
from programs.services.week_view import WeekDesk

GROUP_OF_HEAD = {"long": "triceps", "lateral": "triceps", "clavicular": "chest", "sternal": "chest"}
MUSCLE_OF_HEAD = {**{head: f"{group} muscle" for head, group in GROUP_OF_HEAD.items()}, "free": "free"}
ANATOMY = Anatomy(
    groups={"chest": "chest", "triceps": "triceps"},
    group_of_head=GROUP_OF_HEAD,
    muscle_of_head=MUSCLE_OF_HEAD,
    head_names={head: head for head in MUSCLE_OF_HEAD},
    muscle_names={muscle: muscle for muscle in MUSCLE_OF_HEAD.values()},
)
TARGETS = default_ranges("intermediate", ANATOMY.groups)


def fact(pk, credits, long=()):
    return ExerciseFacts(
        pk=pk, name=str(pk), equipment="bar", cautions=(), archived=False, one_sided=False, rep_s=4, rep_unit="",
        sides_in_turn=False, setup_s=60, credits=credits, long=frozenset(long),
    )  # fmt: skip


credits = st.dictionaries(
    st.sampled_from(list(MUSCLE_OF_HEAD)), st.sampled_from([0.25, 0.5, 0.75, 1.0]), min_size=0, max_size=4
)
facts = st.lists(credits, min_size=1, max_size=4).map(lambda rows: {n: fact(n, row) for n, row in enumerate(rows, 1)})


@st.composite
def weeks(draw, known):
    def slot(key):
        sets = draw(st.integers(1, 6))
        rir = draw(st.integers(0, 6))
        return Slot(key, draw(st.sampled_from(list(known))), sets=(1, sets), rir=(0, rir))

    days = [Day(f"d{d}", f"d{d}", tuple(slot(f"s{d}{s}") for s in range(draw(st.integers(0, 4))))) for d in range(3)]
    return Week("w", days=tuple(days))


def desk(week, known, weekdays=(0, 2, 4)):
    shares = shares_of(known.values(), ANATOMY)
    sums = week_sums(week, known, shares, weekdays)
    return WeekDesk(
        week, known, ANATOMY, TARGETS, weekdays, 75, shares, sums, tally_week(week, known, ANATOMY, TARGETS, weekdays)
    )


@given(st.data())
def test_the_sums_are_those_of_the_tally(data):
    known = data.draw(facts)
    made = desk(data.draw(weeks(known)), known)
    rows = {row.slug: row.sets for row in (*made.tally.trained, *made.tally.untrained)}
    assert {slug: round(made.sums.groups.get(slug, 0), 9) for slug in rows} == {s: round(n, 9) for s, n in rows.items()}
    assert sum(made.sums.sets.values()) == made.tally.hard_sets
    assert made.sums.minutes == made.tally.minutes
    assert [gap[:3] for gap in made.sums.gaps] == [(g.group, g.first, g.second) for g in made.tally.gaps]


@given(st.data())
def test_no_head_muscle_or_long_share_is_more_than_its_group(data):
    known = data.draw(facts)
    balance = balance_of(desk(data.draw(weeks(known)), known))
    for group in balance.groups:
        assert 0 <= group.long_per_cent <= 100
        assert max(head.per_cent for head in group.heads) in (0, 100)
        assert all(head.sets <= group.sets + 1e-9 for head in group.heads)
        assert not group.hours or sum(group.hours) == 168


def test_load_at_long_length_counts_where_the_head_trained_most_is_long():
    known = {1: fact(1, {"long": 1, "lateral": 0.5}, ["long"]), 2: fact(2, {"long": 0.5, "lateral": 1}, ["long"])}
    week = Week("w", days=(Day("d", "d", (Slot("a", 1), Slot("b", 2))),))
    (group,) = balance_of(desk(week, known, (0,))).groups
    assert (group.sets, group.long_per_cent, group.hours) == (6, 50, [])
