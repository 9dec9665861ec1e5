"""Loads as the client's own gym makes them."""

import pytest

from periodization.loads import Assisted, BodyWeightPlus, NoLoad, settings_of
from periodization.units import from_kg
from programs.models import Exercise
from programs.services.ladders import exercise_ladder, ladder_of
from programs.services.library_read import read_library


def in_pounds(exercise: Exercise, unit: str) -> list[float]:
    return [round(from_kg(kg, "lb"), 2) for kg in settings_of(exercise_ladder(exercise, unit))]


@pytest.mark.django_db
def test_someone_who_logs_in_pounds_is_offered_plates_marked_in_pounds(library):
    bench = Exercise.objects.select_related("equipment").get(slug="barbell-bench-press")
    loads = in_pounds(bench, "lb")
    assert loads[:4] == [45, 50, 55, 60]
    assert 135 in loads
    assert 45 not in in_pounds(bench, "kg")


@pytest.mark.django_db
def test_equipment_without_a_marking_in_pounds_keeps_its_own(library):
    exercise = Exercise.objects.select_related("equipment").get(slug="barbell-bench-press")
    exercise.equipment.ladder_lb = None
    assert exercise_ladder(exercise, "lb") == exercise_ladder(exercise, "kg")


def test_all_library_equipment_with_loads_has_them_in_pounds_too():
    for entry in read_library().equipment:
        assert (entry["ladder_lb"] is None) == (entry["ladder"]["kind"] == "none"), entry["slug"]
        if entry["ladder_lb"]:
            assert settings_of(ladder_of(entry["ladder_lb"], "external")), entry["slug"]


def test_the_body_is_part_of_the_load_where_the_kind_says_so():
    steps = {"kind": "fixed", "min": 0, "max": 10, "step": 5}
    assert isinstance(ladder_of(steps, "body_plus"), BodyWeightPlus)
    assert isinstance(ladder_of(steps, "assisted"), Assisted)


def test_a_damaged_ladder_offers_no_loads_instead_of_failing():
    assert ladder_of({"kind": "fixed", "min": 9, "max": 1, "step": 0}, "external") == NoLoad()
