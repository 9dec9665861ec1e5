"""A trained client is made once for a module; each of its tests gets the rows, and objects of its own for them."""

import copy
from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest

from programs.models import Exercise
from tests.coaching.factories import make_catalogue
from tests.conftest import make_world, rows_of_a_module


def once(fill: Callable[[SimpleNamespace, dict[str, Exercise]], Any]) -> tuple[Any, ...]:
    """Return the fixtures `made`, `copied`, `world` and `exercises` of a module, after `fill(world, exercises)`.

    Keep them under these names in the module. What a test does to rows is rolled back (see `rows_of_a_module`), and
    what it does to the objects is done to copies. The third of `copied` is a copy of what `fill` returned.
    """

    @pytest.fixture(scope="module")
    def made(django_db_setup, django_db_blocker):
        with rows_of_a_module(django_db_setup, django_db_blocker):
            world, exercises = make_world(), make_catalogue()
            yield world, exercises, fill(world, exercises)

    @pytest.fixture
    def copied(made, db):
        return copy.deepcopy(made)

    @pytest.fixture
    def world(copied):
        return copied[0]

    @pytest.fixture
    def exercises(copied):
        return copied[1]

    return made, copied, world, exercises
