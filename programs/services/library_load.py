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
    Limit,
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
    library = {"practice": None} if hasattr(model, "practice") else {}
    known = {row.slug: row for row in model.objects.filter(**library)}
    new, changed, names = [], [], set()
    for values in rows:
        if values["slug"] not in known:
            known[values["slug"]] = model(**library, **values)
            new.append(known[values["slug"]])
            continue
        row = known[values["slug"]]
        fresh = {name for name, value in values.items() if getattr(row, name) != value}
        if fresh:
            for name in fresh:
                setattr(row, name, values[name])
            changed.append(row)
            names |= fresh
    model.objects.bulk_create(new)
    if changed:
        model.objects.bulk_update(changed, sorted(names))
    return known


@transaction.atomic
def library_load(data: LibraryData) -> int:
    """Load the whole library; return how many exercises it has.

    Exercises and equipment that the files no longer have are archived, never deleted: plans and logs point at them.
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
    moves = Head.actions.through
    moves.objects.all().delete()
    moves.objects.bulk_create(
        moves(head=heads[head["slug"]], jointaction=actions[slug])
        for _muscle, head in parts
        for slug in head["actions"]
    )
    equipment = put(Equipment, ({**entry, "archived_at": None} for entry in data.equipment))
    limits = put(Limit, ({**entry, "position": n} for n, entry in enumerate(data.limits)))
    references = put(Reference, ({"slug": entry["id"], "csl": entry} for entry in data.references))
    exercises = put(Exercise, (exercise_values(entry, equipment) for entry in data.exercises))
    replace_details(data, exercises, heads, actions, references)
    replace_limits(data, exercises, limits)
    for model, kept in ((Exercise, data.exercises), (Equipment, data.equipment)):
        gone = model.objects.filter(practice=None, archived_at=None).exclude(slug__in=[row["slug"] for row in kept])
        gone.update(archived_at=timezone.now())
    return len(data.exercises)


def exercise_values(entry: dict[str, Any], equipment: dict[str, Equipment]) -> dict[str, Any]:
    """Map one entry of the files to the columns of Exercise."""
    plain = ["slug", "name", "laterality", "load_kind", "compound", "set_up", "cues", "cautions"]
    plain += ["rest_s", "rep_s", "setup_s"]
    return {
        **{name: entry[name] for name in plain},
        "body_share": entry.get("body_share", 1.0),
        "rep_unit": entry.get("rep_unit", "reps"),
        "equipment": equipment[entry["equipment"]],
        **{f"grade_{name}": entry["grades"][name][0] for name in GRADES},
        "grade_reasons": {name: entry["grades"][name][1] for name in GRADES},
        "limits_judged": True,
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
            HeadCredit(
                exercise=exercise,
                head=heads[slug],
                credit=value,
                loaded_long=slug in entry["long_heads"],
                long_by=actions.get(entry.get("long_by", {}).get(slug)),
            )
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


def replace_limits(data: LibraryData, exercises: dict[str, Exercise], limits: dict[str, Limit]) -> None:
    """Write anew which joint stresses and positions the library's exercises have."""
    has = Exercise.limits.through
    has.objects.filter(exercise__practice=None).delete()
    has.objects.bulk_create(
        has(exercise=exercises[entry["slug"]], limit=limits[slug])
        for entry in data.exercises
        for slug in entry["limits"]
    )
