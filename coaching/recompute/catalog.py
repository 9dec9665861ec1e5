"""The exercises of a window with their credits and real loads, in one query."""

from collections.abc import Set
from dataclasses import replace

from coaching.recompute.rows import ExerciseRow
from programs.models import Exercise
from programs.models.exercise import RepUnit
from programs.services.ladders import description_in, ladder_of


def load_exercises(ids: Set[int], unit: str) -> dict[int, ExerciseRow]:
    """Return the exercises by id, with the loads of equipment marked in `unit`.

    Heads without a weekly target have no entry in `group_of_head`.
    """
    rows = (
        Exercise.objects.filter(pk__in=ids)
        .order_by("pk", "credits__head__slug")
        .values_list(
            "pk",
            "name",
            "load_kind",
            "rep_unit",
            "body_share",
            "equipment__ladder",
            "equipment__ladder_lb",
            "credits__credit",
            "credits__head__slug",
            "credits__head__muscle__slug",
            "credits__head__group__slug",
        )
    )
    found: dict[int, ExerciseRow] = {}
    for pk, name, load_kind, rep_unit, share, ladder, ladder_lb, credit, head, muscle, group in rows:
        exercise = found.get(pk)
        if exercise is None:
            loads = ladder_of(description_in(ladder, ladder_lb, unit), load_kind)
            exercise = ExerciseRow(pk, name, rep_unit == RepUnit.REPS, loads, share)
        if head is not None:
            exercise = replace(
                exercise,
                credits=exercise.credits | {head: credit},
                muscle_of_head=exercise.muscle_of_head | {head: muscle},
                group_of_head=exercise.group_of_head | ({head: group} if group else {}),
            )
        found[pk] = exercise
    return found
