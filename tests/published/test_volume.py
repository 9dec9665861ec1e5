"""Set counting against the published definition, and the target ranges against the spread of opinion."""

import re

import pytest

from periodization.dose import CountedSet, roll_up, weekly_volume
from periodization.rules import Reason
from periodization.sentences import sentence
from periodization.targets import DEFAULTS, OPINIONS, spread_on, target_range
from tests.published.tables import number, table

# Pelland 2024: direct sets weigh 1, indirect sets 0.5.
CREDITS = {
    "bench press": {"pectoralis-major": 1, "triceps-brachii": 0.5},
    "overhead press": {"deltoid": 1, "triceps-brachii": 0.5},
    "elbow extension": {"triceps-brachii": 1},
}


@pytest.mark.parametrize("row", table("weekly-volume", "volume-1"), ids=lambda r: f"DERIVED-{r['muscle']}")
def test_three_ways_of_counting(row):
    sets = [CountedSet(exercise, 2) for exercise in CREDITS for _ in range(3)]
    volume = weekly_volume(sets, CREDITS, {}, {})
    muscle = row["muscle"]
    counted = (volume.total_by_muscle[muscle], volume.by_muscle[muscle], volume.direct_by_muscle[muscle])
    assert counted == (float(row["total"]), float(row["fractional"]), float(row["direct"]))


@pytest.mark.parametrize("row", table("weekly-volume", "volume-2"), ids=lambda r: f"DERIVED-{r['heads']}")
def test_a_set_is_one_set_for_its_muscle(row):
    heads = {name: float(credit) for name, credit in re.findall(r"(\w+) ([\d.]+)", row["heads"])}
    muscle = roll_up(heads, dict.fromkeys(heads, "triceps-brachii"))
    group = roll_up(heads, dict.fromkeys(heads, "triceps"))
    assert (muscle["triceps-brachii"], group["triceps"]) == (float(row["muscle"]), float(row["group"]))


@pytest.mark.parametrize(
    "row", table("weekly-volume", "volume-3"), ids=lambda r: f"CHOSEN-{r['status']}-{r['priority']}"
)
def test_target_range_of_the_page(row):
    target = target_range(row["status"], row["priority"], "triceps")
    assert (target.floor, target.ceiling, target.source) == (float(row["floor"]), float(row["ceiling"]), "chosen")


def test_page_shows_the_opinions_of_the_code():
    shown = [
        (number(r["from"]), number(r["to"]), r["says"], r["source"], r["standing"])
        for r in table("weekly-volume", "volume-4")
    ]
    assert shown == [(o.floor, o.ceiling, sentence(Reason(o.code, o.params)), o.source, o.standing) for o in OPINIONS]


@pytest.mark.parametrize("row", table("weekly-volume", "volume-5"), ids=lambda r: f"DERIVED-{r['group']}")
def test_spread_of_opinion_on_a_group(row):
    spread = spread_on(row["group"])
    assert spread.params == {"count": int(row["opinions"]), "lowest": float(row["from"]), "highest": float(row["to"])}


@pytest.mark.parametrize("status", ["intermediate", "advanced"])
def test_trained_targets_start_at_ten(status):
    """SOURCED: at least 10 sets a week best supported (Bernárdez-Vázquez 2022)."""
    assert DEFAULTS[status]["normal"][0] >= 10
    assert DEFAULTS[status]["focus"][0] >= 10


def test_trained_targets_meet_12_to_20():
    """SOURCED: 12-20 suggested for trained young men (Baz-Valle 2022)."""
    floor, ceiling = DEFAULTS["advanced"]["normal"]
    assert floor >= 12
    assert ceiling <= 20


@pytest.mark.parametrize("status", DEFAULTS)
def test_normal_targets_reach_detectable_growth(status):
    """SOURCED-2nd: growth from about 4 fractional sets a week."""
    assert DEFAULTS[status]["normal"][0] >= 4
