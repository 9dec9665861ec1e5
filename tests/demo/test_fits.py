"""What the invented clients are said to have and to keep from is something that the library knows."""

from demo.practice.fit import FITS
from demo.practice.people import PEOPLE
from tests.programs.library_fixture import library_data


def test_fits_name_people_equipment_and_limits_that_exist():
    data = library_data()
    assert FITS.keys() <= {person.name.split()[0] for person in PEOPLE}
    assert {slug for fit in FITS.values() for slug in fit.gear} <= {entry["slug"] for entry in data.equipment}
    assert {slug for fit in FITS.values() for slug in fit.limits} <= {entry["slug"] for entry in data.limits}


def test_the_practice_is_mixed():
    assert {person.unit for person in PEOPLE} == {"kg", "lb"}
    assert {person.status for person in PEOPLE} == {"novice", "intermediate", "advanced"}
    assert sum(bool(fit.gear) for fit in FITS.values()) >= 6
    assert sum(bool(fit.limits) for fit in FITS.values()) >= 8
    assert sum(bool(fit.minutes) for fit in FITS.values()) >= 6
