import pytest

from tests.coaching.factories import make_catalogue


@pytest.fixture
def exercises(db):
    """The small catalogue, by slug."""
    return make_catalogue()
