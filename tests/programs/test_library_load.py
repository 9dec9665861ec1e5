"""Loading the library: repeatable, gentle to what a practice wrote, and never deleting what plans point at."""

import copy
import dataclasses

import pytest
from django.core.management import call_command
from django.forms.models import model_to_dict

from programs.models import (
    Equipment,
    Exercise,
    ExerciseLink,
    ExerciseReference,
    Head,
    HeadCredit,
    Muscle,
    Reference,
)
from programs.services.library_load import library_load

MODELS = (Muscle, Head, Equipment, Exercise, Reference)


def picture():
    """Every row of the library, with links and credits by what they say and not by their own ids."""
    rows = {model.__name__: [model_to_dict(row) for row in model.objects.order_by("pk")] for model in MODELS}
    rows["credits"] = sorted(
        HeadCredit.objects.values_list("exercise", "head", "credit", "loaded_long", "long_by__slug"), key=str
    )
    rows["links"] = sorted(ExerciseLink.objects.values_list("exercise", "other", "kind", "position"))
    rows["sources"] = sorted(ExerciseReference.objects.values_list("exercise", "reference", "claim"))
    rows["actions"] = sorted(Exercise.actions.through.objects.values_list("exercise", "jointaction"))
    rows["moves"] = sorted(Head.actions.through.objects.values_list("head", "jointaction"))
    return rows


def without(data, slug):
    """The library as if one exercise had been taken out of the files."""
    exercises = [copy.deepcopy(entry) for entry in data.exercises if entry["slug"] != slug]
    for entry in exercises:
        for kind in ("harder", "easier", "substitutes"):
            entry[kind] = [other for other in entry[kind] if other != slug]
    return dataclasses.replace(data, exercises=exercises)


def test_everything_in_the_files_is_loaded(library):
    data = library.data
    assert Exercise.objects.filter(practice=None, archived_at=None).count() == len(data.exercises)
    assert HeadCredit.objects.count() == sum(len(entry["credits"]) for entry in data.exercises)
    assert HeadCredit.objects.filter(loaded_long=True).count() == sum(len(e["long_heads"]) for e in data.exercises)
    assert Exercise.objects.get(slug="dumbbell-carry").rep_unit == "steps"
    credit = HeadCredit.objects.get(exercise__slug="seated-leg-curl", head__slug="semitendinosus")
    assert (credit.credit, credit.loaded_long, credit.long_by.slug) == (1, True, "hip-flexion")


def test_a_second_load_changes_nothing(library):
    before = picture()
    library_load(library.data)
    assert picture() == before


def test_what_the_files_lose_is_archived_and_comes_back_as_the_same_row(library):
    row = library.exercise("seated-leg-curl")
    library_load(without(library.data, "seated-leg-curl"))
    gone = library.exercise("seated-leg-curl")
    assert gone.archived_at is not None
    stamp = gone.archived_at
    library_load(without(library.data, "seated-leg-curl"))
    assert library.exercise("seated-leg-curl").archived_at == stamp, "archived once, not again at each load"
    library_load(library.data)
    back = library.exercise("seated-leg-curl")
    assert (back.pk, back.archived_at) == (row.pk, None)


def test_a_change_in_the_files_reaches_the_row(library):
    exercises = copy.deepcopy(library.data.exercises)
    entry = next(e for e in exercises if e["slug"] == "seated-leg-curl")
    entry["cautions"].append("A new caution.")
    entry["credits"]["soleus"] = 0.25
    library_load(dataclasses.replace(library.data, exercises=exercises))
    row = library.exercise("seated-leg-curl")
    assert row.cautions[-1] == "A new caution."
    assert row.credits.get(head__slug="soleus").credit == 0.25


@pytest.fixture
def own(library, world):
    equipment = Equipment.objects.create(
        practice=world.practice, slug="barbell", name="our bar", kind="plates", ladder={"kind": "none"}
    )
    exercise = Exercise.objects.create(
        practice=world.practice,
        slug="seated-leg-curl",
        name="Our leg curl",
        equipment=equipment,
        set_up="As we do it.",
        **{f"grade_{name}": 3 for name in ("activation", "long_length", "loadability", "near_failure")},
    )
    HeadCredit.objects.create(exercise=exercise, head=library.head("soleus"), credit=0.5)
    exercise.actions.add(library.exercise("seated-leg-curl").actions.get())
    ExerciseLink.objects.create(exercise=exercise, other=library.exercise("prone-leg-curl"), kind="easier")
    return exercise


def test_what_a_practice_wrote_is_left_alone_even_under_the_same_slug(library, own):
    before = picture()
    library_load(library.data)
    library_load(without(library.data, "prone-leg-curl"))
    library_load(library.data)
    assert picture() == before
    own.refresh_from_db()
    assert (own.name, own.archived_at, own.equipment.name) == ("Our leg curl", None, "our bar")


def test_the_database_keeps_slugs_apart(library, own):
    """One library row a slug, one row of a practice a slug; NULL must not make an exception."""
    from django.db import IntegrityError, transaction

    for practice in (None, own.practice):
        row = Exercise.objects.get(practice=practice, slug="seated-leg-curl")
        row.pk = None
        with pytest.raises(IntegrityError), transaction.atomic():
            row.save()


def test_the_command_says_how_many(db, capsys):
    call_command("load_library")
    assert f"{Exercise.objects.count()} exercises" in capsys.readouterr().out
