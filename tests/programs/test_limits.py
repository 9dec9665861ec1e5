"""Joint stresses and positions: every exercise was judged, and what is closed is closed in every way of asking."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from programs.models import Exercise, Limit, Site
from programs.services.library_data import library_faults
from programs.services.limits import AVOIDED, NOT_JUDGED, Limits, exercises_within, limits_of, violations
from tests.programs.library_fixture import library_data

DATA = library_data()
SLUGS = [entry["slug"] for entry in DATA.limits]
HAS = {entry["slug"]: set(entry["limits"]) for entry in DATA.exercises}


def with_action(action):
    return {entry["slug"] for entry in DATA.exercises if action in entry["actions"]}


def test_every_exercise_of_the_library_was_judged():
    assert all(len(entry["limits"]) == len(HAS[entry["slug"]]) for entry in DATA.exercises)
    missing = {**DATA.exercises[0]}
    del missing["limits"]
    data = type(DATA)(**{**{f: getattr(DATA, f) for f in DATA.__dataclass_fields__}, "exercises": [missing]})
    assert any("not judged" in fault for fault in library_faults(data))


def test_each_limit_names_a_place_and_keeps_somebody_from_something_but_never_from_all():
    for entry in DATA.limits:
        assert entry["site"] in Site.values
        assert entry["sentence"].endswith(".")
        assert 0 < sum(entry["slug"] in has for has in HAS.values()) < len(HAS) / 2


@pytest.mark.parametrize(
    ("action", "one_of"),
    [
        ("scapular-upward-rotation", {"arm-overhead", "straight-arm-raised"}),
        ("shoulder-external-rotation", {"arm-turned"}),
        ("shoulder-internal-rotation", {"arm-turned"}),
        ("trunk-rotation", {"spine-turns"}),
        ("trunk-lateral-flexion", {"spine-sideways"}),
        ("knee-flexion", {"knee-curled"}),
        ("hip-adduction", {"legs-spread", "on-the-side"}),
        ("hip-abduction", {"legs-spread", "hip-turned", "one-leg-stance"}),
        ("wrist-extension", {"wrist-lifted"}),
        ("wrist-flexion", {"wrist-bent-back"}),
        ("ankle-plantarflexion", {"ankle-bent-up", "foot-moved"}),
        ("neck-flexion", {"neck-loaded"}),
        ("neck-extension", {"neck-loaded"}),
    ],
)
def test_joint_actions_bring_the_stress_that_goes_with_them(action, one_of):
    assert [slug for slug in sorted(with_action(action)) if not HAS[slug] & one_of] == []


def test_a_knee_that_straightens_is_bent_deep_or_has_its_foot_free_except_in_pulls_from_the_floor():
    other = {
        slug for slug in with_action("knee-extension") if not HAS[slug] & {"knee-bent-deep", "knee-straightened-free"}
    }
    assert all(slug.endswith("deadlift") for slug in other)


def test_what_is_held_for_seconds_and_its_set_up_are_judged_as_holds_and_positions():
    for entry in DATA.exercises:
        text = f"{entry['name']} {entry['set_up']}".lower()
        if entry.get("rep_unit") == "seconds":
            assert "long-strain" in HAS[entry["slug"]], entry["slug"]
        if "face down" in text:
            assert "face-down" in HAS[entry["slug"]], entry["slug"]
        if "lie on the side" in text:
            assert "on-the-side" in HAS[entry["slug"]], entry["slug"]
        if "overhead" in text:
            assert "arm-overhead" in HAS[entry["slug"]], entry["slug"]


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(slugs=st.sets(st.sampled_from(SLUGS), max_size=6), avoided=st.sets(st.sampled_from(sorted(HAS)), max_size=3))
def test_what_is_left_open_is_exactly_what_violates_nothing(library, slugs, avoided):
    everything = Exercise.objects.prefetch_related("limits")
    ids = {row.slug: row.pk for row in everything}
    limits = limits_of(slugs, (ids[slug] for slug in avoided))
    left = {row.slug for row in exercises_within(everything, limits)}
    assert left == {row.slug for row in everything if not violations(row, limits)}
    assert left == {slug for slug, has in HAS.items() if not has & slugs and slug not in avoided}


def test_the_reasons_are_named(library):
    press = library.exercise("barbell-overhead-press")
    assert violations(press, limits_of(["arm-overhead", "kneeling"], [press.pk])) == ["arm-overhead", AVOIDED]
    assert violations(press, Limits()) == []


def test_an_exercise_that_nobody_judged_is_closed_to_whoever_has_a_limit(library):
    row = library.exercise("band-curl")
    row.limits_judged = False
    row.save()
    assert violations(row, limits_of(["kneeling"])) == [NOT_JUDGED]
    assert not exercises_within(Exercise.objects.filter(pk=row.pk), limits_of(["kneeling"])).exists()
    assert violations(row, Limits()) == []


def test_an_unknown_limit_is_refused(library):
    with pytest.raises(ValueError, match="knees-tired"):
        limits_of(["knees-tired"])
    assert Limit.objects.count() == len(SLUGS)
