"""The loader refuses what does not hang together, and says which exercise it is."""

import copy
import dataclasses

import pytest

from programs.services.library_data import library_faults
from programs.services.library_long import joint_of, long_is_sound, long_positions
from programs.services.library_rules import link_faults, rule_faults
from tests.programs.library_fixture import library_data

TRICEPS_LONG = {"elbow-extension", "shoulder-extension", "shoulder-adduction"}


def changed(slug, **values):
    """The library with some values of one exercise changed."""
    data = library_data()
    exercises = copy.deepcopy(data.exercises)
    next(entry for entry in exercises if entry["slug"] == slug).update(values)
    return dataclasses.replace(data, exercises=exercises)


@pytest.mark.parametrize(
    ("values", "said"),
    [
        ({"rep_unit": "minutes"}, "rep_unit must be one of reps, seconds, steps"),
        ({"laterality": "left"}, "laterality must be one of"),
        ({"cautions": []}, "cautions is empty"),
        ({"cautions": ["x", " "]}, "cautions is empty or has an empty line"),
        ({"set_up": "  "}, "set_up is empty"),
        ({"load_kind": "assisted"}, "equipment of kind stack gives no help"),
        ({"equipment": "assisted-station"}, "on an assisted station the load is the help"),
        ({"equipment": "body-weight"}, "the body is no external load"),
        ({"actions": ["hip-extension"]}, "biceps-femoris-short counts as direct, but"),
        ({"long_by": {}}, "semitendinosus is called long, but long_by does not put its other joint there: None"),
        ({"long_by": {"soleus": "knee-flexion"}}, "long_by names soleus"),
        ({"credits": {"soleus": 0.25}, "long_heads": [], "long_by": {}}, "no head gets half a set or more"),
    ],
)
def test_an_entry_that_breaks_a_rule_is_named(values, said):
    faults = rule_faults(changed("seated-leg-curl", **values))
    assert any(fault.startswith("seated-leg-curl: ") and said in fault for fault in faults), faults


@pytest.mark.parametrize(
    ("values", "said"),
    [
        ({"equipment": "anvil"}, "unknown equipment anvil"),
        ({"actions": ["elbow-knee"]}, "unknown joint action elbow-knee"),
        ({"credits": {"tail": 1}}, "unknown head tail"),
        ({"credits": {"soleus": 1.5}}, "credit 1.5 for soleus"),
        ({"long_heads": ["soleus"]}, "soleus is loaded long but gets no credit"),
        ({"refs": {"activation": ["nobody-1900"]}}, "unknown reference nobody-1900"),
        ({"refs": {"charm": []}}, "unknown claim charm"),
        ({"harder": ["no-such"]}, "harder names no-such"),
        ({"substitutes": ["seated-leg-curl"]}, "substitutes names seated-leg-curl"),
    ],
)
def test_an_unknown_name_is_refused(values, said):
    faults = library_faults(changed("seated-leg-curl", **values))
    assert any(fault.startswith("seated-leg-curl: ") and said in fault for fault in faults), faults


def entry(slug, harder=(), easier=()):
    return {"slug": slug, "harder": list(harder), "easier": list(easier)}


def test_variants_may_not_lead_in_a_circle():
    assert link_faults([entry("a", harder=["b"]), entry("b", easier=["a"])]) == []
    assert link_faults([entry("a", harder=["b"]), entry("b", harder=["a"])])
    assert link_faults([entry("a", harder=["b"], easier=["b"]), entry("b")])
    around = [entry("a", harder=["b"]), entry("b", harder=["c"]), entry("c", harder=["a"])]
    assert [fault.split(":")[0] for fault in link_faults(around)] == ["a", "b", "c"]


@pytest.mark.parametrize(
    ("trained", "long_by", "sound"),
    [
        ({"elbow-extension"}, "shoulder-flexion", True),  # overhead
        ({"elbow-extension"}, "shoulder-abduction", True),
        ({"elbow-extension"}, None, False),  # the joint that is trained cannot make it long alone
        ({"elbow-extension"}, "elbow-flexion", False),
        ({"elbow-extension"}, "shoulder-extension", False),  # that makes it short
        ({"shoulder-extension"}, "elbow-flexion", True),  # a pullover with bent arms
        ({"elbow-extension", "shoulder-extension"}, "shoulder-flexion", False),  # both joints move: neither holds it
        ({"knee-extension"}, "shoulder-flexion", False),  # not trained at all
    ],
)
def test_the_long_head_of_triceps_is_long_only_by_the_other_joint(trained, long_by, sound):
    assert long_is_sound(TRICEPS_LONG, trained, long_by) is sound


def test_a_one_joint_head_needs_no_position_and_may_name_none():
    assert long_is_sound({"ankle-plantarflexion"}, {"ankle-plantarflexion"}, None)
    assert not long_is_sound({"ankle-plantarflexion"}, {"ankle-plantarflexion"}, "knee-extension")


def test_hand_and_forearm_count_with_the_joint_beside_them():
    assert joint_of("finger-flexion") == joint_of("wrist-flexion")
    assert joint_of("forearm-supination") == joint_of("elbow-flexion")
    biceps = {"elbow-flexion", "forearm-supination", "shoulder-flexion"}
    assert long_positions(biceps, {"elbow-flexion"}) == {"shoulder-extension"}
