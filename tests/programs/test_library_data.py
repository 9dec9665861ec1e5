"""What the library that comes with the program must hold. It is data, and data has faults like code."""

from collections import Counter, defaultdict

import pytest

from programs.services.library_long import needs_position
from tests.programs.library_fixture import library_data

# Biarticular prime movers of the limbs, after the anatomical table (literature, section 10).
TWO_JOINTS = {
    "biceps-brachii-long", "biceps-brachii-short", "triceps-brachii-long", "rectus-femoris-straight",
    "rectus-femoris-reflected", "biceps-femoris-long", "semitendinosus", "semimembranosus", "gracilis", "sartorius",
    "tensor-fasciae-latae", "gastrocnemius-lateral", "gastrocnemius-medial",
}  # fmt: skip
ONE_JOINT = {
    "brachialis", "triceps-brachii-lateral", "triceps-brachii-medial", "vastus-lateralis", "vastus-intermedius",
    "vastus-medialis", "biceps-femoris-short", "soleus",
}  # fmt: skip


@pytest.fixture(scope="module")
def data():
    return library_data()  # refuses faults of its own: unknown names, ranges, long heads, circular variants


def heads_of(data):
    return {head["slug"]: head for muscle in data.muscles for head in muscle["heads"]}


def test_there_are_enough_exercises_and_muscles(data):
    assert len(data.exercises) >= 120
    assert len(data.muscles) >= 50


def test_two_joint_heads_are_those_of_the_anatomical_table(data):
    heads = heads_of(data)
    crossing = {slug for slug, head in heads.items() if head["joints"] == 2}
    assert crossing - {"forearm-flexors", "forearm-extensors"} == TWO_JOINTS
    assert not crossing & ONE_JOINT
    assert heads.keys() >= ONE_JOINT


def test_heads_that_need_the_other_joint_to_be_long_are_two_joint_heads(data):
    """The rule reads joint actions, the table counts joints: the two must agree where the rule applies.

    Tensor fasciae latae acts on the hip alone (the knee through its tract), the forearm's heads on wrist and hand.
    """
    heads = heads_of(data)
    by_actions = {slug for slug, head in heads.items() if needs_position(head["actions"])}
    assert by_actions == TWO_JOINTS - {"tensor-fasciae-latae"}


def test_each_head_with_a_weekly_target_can_be_trained_directly_in_several_ways(data):
    kinds = {entry["slug"]: entry["kind"] for entry in data.equipment}
    count, ways = Counter(), defaultdict(set)
    for entry in data.exercises:
        for head, credit in entry["credits"].items():
            if credit == 1:
                count[head] += 1
                ways[head].add(kinds[entry["equipment"]])
    wanted = [slug for slug, head in heads_of(data).items() if head["group"]]
    assert {head: count[head] for head in wanted if count[head] < 3} == {}
    assert {head: ways[head] for head in wanted if len(ways[head]) < 2} == {}


@pytest.mark.parametrize(
    ("head", "trained", "position"),
    [
        ("triceps-brachii-long", "elbow-extension", "shoulder-flexion"),
        ("biceps-brachii-long", "elbow-flexion", "shoulder-extension"),
        ("semitendinosus", "knee-flexion", "hip-flexion"),
        ("semitendinosus", "hip-extension", "knee-extension"),
        ("rectus-femoris-straight", "knee-extension", "hip-extension"),
        ("gastrocnemius-medial", "ankle-plantarflexion", "knee-extension"),
    ],
)
def test_a_two_joint_head_is_called_long_only_where_the_other_joint_puts_it_there(data, head, trained, position):
    """Published comparisons changed the joint that was not trained (Maeo 2021, 2023), and so must ours."""
    found = [e for e in data.exercises if head in e["long_heads"] and trained in e["actions"]]
    assert found
    assert {entry["long_by"][head] for entry in found} == {position}


def test_the_overhead_and_the_neutral_arm_position_differ_as_published(data):
    by = {entry["slug"]: entry for entry in data.exercises}
    assert "triceps-brachii-long" in by["overhead-cable-triceps-extension"]["long_heads"]
    assert "triceps-brachii-long" not in by["cable-triceps-pushdown"]["long_heads"]
    assert "biceps-femoris-long" in by["seated-leg-curl"]["long_heads"]
    assert "biceps-femoris-long" not in by["prone-leg-curl"]["long_heads"]


def test_a_head_that_grades_high_at_long_length_is_loaded_long_there(data):
    """A grade of 5 for load at long length speaks of some head, and that head must be marked."""
    assert [e["slug"] for e in data.exercises if e["grades"]["long_length"][0] == 5 and not e["long_heads"]] == []


def test_reasons_are_sentences_of_their_own(data):
    reasons = Counter(reason for entry in data.exercises for _value, reason in entry["grades"].values())
    assert [reason for reason, times in reasons.items() if times > 1] == []
    assert [reason for reason in reasons if not reason.endswith(".") or len(reason) < 25] == []


def test_claims_with_literature_name_it(data):
    assert sum(bool(entry.get("refs")) for entry in data.exercises) >= 10
    cited = {ref for entry in data.exercises for refs in entry.get("refs", {}).values() for ref in refs}
    assert cited == {item["id"] for item in data.references}


def test_what_is_counted_in_seconds_or_steps_says_so(data):
    for entry in data.exercises:
        unit = entry.get("rep_unit", "reps")
        if unit != "reps":
            assert unit.rstrip("s") in f"{entry['set_up']} {entry['name']}".lower(), entry["slug"]


def test_names_differ(data):
    names = Counter(entry["name"].casefold() for entry in data.exercises)
    assert [name for name, times in names.items() if times > 1] == []
