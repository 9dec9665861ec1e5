"""scripts/test reads only the folders that may hold a kind of test: one that stands elsewhere would never run."""

from types import SimpleNamespace

import pytest

from tests import conftest


def item(place, *marks):
    return SimpleNamespace(
        nodeid=f"{place}::test_it",
        get_closest_marker=lambda name: name if name in marks else None,
        add_marker=lambda name: None,
        fixturenames=(),
    )


@pytest.mark.parametrize(
    ("place", "mark"), [("tests/accounts/test_x.py", "browser"), ("tests/programs/test_x.py", "services")]
)
def test_a_test_that_would_never_run_stops_the_run(place, mark):
    with pytest.raises(pytest.UsageError, match=place):
        conftest.pytest_collection_modifyitems([item(place, mark)])


def test_a_test_in_its_place_is_taken():
    conftest.pytest_collection_modifyitems(
        [item("tests/browser/test_x.py", "browser", "services"), item("tests/faults/test_x.py", "services")]
    )
