"""The exercises of a window with their credits and real loads, in one query."""

from collections.abc import Set
from dataclasses import replace

from coaching.recompute.rows import ExerciseRow
from periodization.loads import Assisted, BodyWeightPlus, LoadLadder, NoLoad, ladder_from_dict
from programs.models import Exercise, LoadKind


def load_exercises(ids: Set[int]) -> dict[int, ExerciseRow]:
    """Return the exercises by id; heads without a weekly target have no entry in `group_of_head`."""
    rows = (
        Exercise.objects.filter(pk__in=ids)
        .order_by("pk", "credits__head__slug")
        .values_list(
            "pk",
            "name",
            "load_kind",
            "compound",
            "equipment__ladder",
            "credits__credit",
            "credits__head__slug",
            "credits__head__muscle__slug",
            "credits__head__group__slug",
        )
    )
    found: dict[int, ExerciseRow] = {}
    for pk, name, load_kind, compound, ladder, credit, head, muscle, group in rows:
        exercise = found.get(pk) or ExerciseRow(pk, name, load_kind, compound, ladder_of(ladder, load_kind))
        if head is not None:
            exercise = replace(
                exercise,
                credits=exercise.credits | {head: credit},
                muscle_of_head=exercise.muscle_of_head | {head: muscle},
                group_of_head=exercise.group_of_head | ({head: group} if group else {}),
            )
        found[pk] = exercise
    return found


def ladder_of(description: dict, load_kind: str) -> LoadLadder:
    """Return the loads of an exercise: what its equipment makes, with the body as part of it where the kind says so."""
    try:
        ladder = ladder_from_dict(description)
    except ValueError:
        # A ladder that was damaged by hand must not stop the client's whole week; nothing heavier follows from it.
        ladder = NoLoad()
    if load_kind == LoadKind.BODY_PLUS and not isinstance(ladder, BodyWeightPlus):
        return BodyWeightPlus(ladder)
    if load_kind == LoadKind.ASSISTED and not isinstance(ladder, Assisted):
        return Assisted(ladder)
    return ladder
