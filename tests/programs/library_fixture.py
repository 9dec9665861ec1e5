"""The real library, loaded for a test. The files are read and checked once a run; the rows roll back with the test."""

from functools import cache
from types import SimpleNamespace

import pytest

from programs.models import Equipment, Exercise, Head, MuscleGroup
from programs.services.library_data import LibraryData, read_library
from programs.services.library_load import library_load


@cache
def library_data() -> LibraryData:
    return read_library()


@pytest.fixture
def library(db):
    """Load every exercise; `library.exercise(slug)`, `.equipment(slug)`, `.head(slug)`, `.group(slug)` fetch a row."""
    library_load(library_data())
    return SimpleNamespace(
        data=library_data(),
        exercise=lambda slug: Exercise.objects.get(practice=None, slug=slug),
        equipment=lambda slug: Equipment.objects.get(practice=None, slug=slug),
        head=lambda slug: Head.objects.get(slug=slug),
        group=lambda slug: MuscleGroup.objects.get(slug=slug),
    )
