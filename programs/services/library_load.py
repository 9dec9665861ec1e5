"""Bring the library's files into the database; running it again changes only what the files changed."""

from collections.abc import Iterable
from typing import Any

from django.db import transaction
from django.db.models import Model
from django.utils import timezone

from programs.models import (
    Equipment,
    Exercise,
    ExerciseLink,
    ExerciseReference,
    Head,
    HeadCredit,
    JointAction,
    Muscle,
    MuscleGroup,
    Reference,
)
from programs.services.library_data import GRADES, LINKS, LibraryData

LINK_KINDS = dict(
    zip(LINKS, (ExerciseLink.Kind.HARDER, ExerciseLink.Kind.EASIER, ExerciseLink.Kind.SUBSTITUTE), strict=True)
)


def put(model: type[Model], rows: Iterable[dict[str, Any]]) -> dict[str, Any]:
    """Insert or update rows of `model` by slug (library rows only); return them by slug."""
    rows = list(rows)
    library = {"practice": None} if hasattr(model, "practice") else {}
    known = {row.slug: row for row in model.objects.filter(**library)}
    for values in rows:
        row = known.setdefault(values["slug"], model(**library))
        for name, value in values.items():
            setattr(row, name, value)
    names = [name for name in (rows[0] if rows else {}) if name != "slug"]
    model.objects.bulk_create([row for row in known.values() if row.pk is None])
    model.objects.bulk_update([row for row in known.values() if row.pk is not None], names)
    return known


@transaction.atomic
def library_load(data: LibraryData) -> int:
    """Load the whole library; return how many exercises it has.

    Exercises that the files no longer have are archived, never deleted: plans and logs point at them.
    """
    groups = put(MuscleGroup, ({**entry, "position": n} for n, entry in enumerate(data.groups)))
    actions = put(JointAction, data.actions)
    muscles = put(
        Muscle,
        (
            {**{key: m[key] for key in ("slug", "name", "latin", "ta98", "lay_name")}, "position": n}
            for n, m in enumerate(data.muscles)
        ),
    )
    parts = [(m["slug"], head) for m in data.muscles for head in m["heads"]]
    heads = put(
        Head,
        (
            {
                "slug": head["slug"],
                "name": head["name"],
                "joints": head["joints"],
                "muscle": muscles[muscle],
                "group": groups.get(head["group"]),
                "position": n,
            }
            for n, (muscle, head) in enumerate(parts)
        ),
    )
    for _muscle, head in parts:
        heads[head["slug"]].actions.set([actions[slug] for slug in head["actions"]])
    equipment = put(Equipment, data.equipment)
    references = put(Reference, ({"slug": entry["id"], "csl": entry} for entry in data.references))
    exercises = put(Exercise, (exercise_values(entry, equipment) for entry in data.exercises))
    replace_details(data, exercises, heads, actions, references)
    gone = set(exercises) - {entry["slug"] for entry in data.exercises}
    Exercise.objects.filter(practice=None, slug__in=gone, archived_at=None).update(archived_at=timezone.now())
    return len(data.exercises)


def exercise_values(entry: dict[str, Any], equipment: dict[str, Equipment]) -> dict[str, Any]:
    """Map one entry of the files to the columns of Exercise."""
    plain = ["slug", "name", "laterality", "load_kind", "compound", "set_up", "cues", "cautions"]
    plain += ["rest_s", "rep_s", "setup_s"]
    return {
        **{name: entry[name] for name in plain},
        "equipment": equipment[entry["equipment"]],
        **{f"grade_{name}": entry["grades"][name][0] for name in GRADES},
        "grade_reasons": {name: entry["grades"][name][1] for name in GRADES},
        "archived_at": None,
    }


def replace_details(
    data: LibraryData,
    exercises: dict[str, Exercise],
    heads: dict[str, Head],
    actions: dict[str, JointAction],
    references: dict[str, Reference],
) -> None:
    """Write credits, links, joint actions and references of the library's exercises anew."""
    mine = Exercise.objects.filter(practice=None)
    HeadCredit.objects.filter(exercise__in=mine).delete()
    ExerciseLink.objects.filter(exercise__in=mine).delete()
    ExerciseReference.objects.filter(exercise__in=mine).delete()
    through = Exercise.actions.through
    through.objects.filter(exercise__in=mine).delete()
    credits, links, sources, moves = [], [], [], []
    for entry in data.exercises:
        exercise = exercises[entry["slug"]]
        credits += [
            HeadCredit(exercise=exercise, head=heads[slug], credit=value, loaded_long=slug in entry["long_heads"])
            for slug, value in entry["credits"].items()
        ]
        links += [
            ExerciseLink(exercise=exercise, other=exercises[slug], kind=LINK_KINDS[kind], position=n)
            for kind in LINKS
            for n, slug in enumerate(entry[kind])
        ]
        sources += [
            ExerciseReference(exercise=exercise, reference=references[slug], claim=claim)
            for claim, slugs in entry.get("refs", {}).items()
            for slug in slugs
        ]
        moves += [through(exercise=exercise, jointaction=actions[slug]) for slug in entry["actions"]]
    HeadCredit.objects.bulk_create(credits)
    ExerciseLink.objects.bulk_create(links)
    ExerciseReference.objects.bulk_create(sources)
    through.objects.bulk_create(moves)
