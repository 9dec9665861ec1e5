"""The real library, loaded for tests. The files are read once a run and the rows made once a module."""

from functools import cache
from types import SimpleNamespace

import pytest
from django.db import transaction

from programs.models import Equipment, Exercise, Head, MuscleGroup
from programs.services.library_data import LibraryData
from programs.services.library_load import library_load
from programs.services.library_read import read_library


@cache
def library_data() -> LibraryData:
    return read_library()


@pytest.fixture(scope="module")
def library_rows(django_db_setup, django_db_blocker):
    """Load every exercise for one module's tests: each test's own transaction lies within this one."""
    with django_db_blocker.unblock(), transaction.atomic():
        library_load(library_data())
        yield
        transaction.set_rollback(True)


@pytest.fixture
def library(library_rows, db):
    """Offer `library.exercise(slug)`, `.equipment(slug)`, `.head(slug)`, `.group(slug)`, `.data`.

    Not for tests that commit (`transaction=True`, a live server): call `library_load(library_data())` there.
    """
    return SimpleNamespace(
        data=library_data(),
        exercise=lambda slug: Exercise.objects.get(practice=None, slug=slug),
        equipment=lambda slug: Equipment.objects.get(practice=None, slug=slug),
        head=lambda slug: Head.objects.get(slug=slug),
        group=lambda slug: MuscleGroup.objects.get(slug=slug),
    )
