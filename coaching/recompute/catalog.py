"""The exercises of a window with their credits, real loads and variants, in one query."""

import datetime as dt
from collections.abc import Set
from dataclasses import replace

from accounts.models import Client
from coaching.recompute.rows import ExerciseRow
from periodization.progression import Variants
from programs.models import Exercise
from programs.models.exercise import ExerciseLink
from programs.services.ladders import description_in, ladder_of
from programs.services.variants import variant_name


def load_exercises(ids: Set[int], client: Client, today: dt.date) -> dict[int, ExerciseRow]:
    """Return the exercises by id, with the loads of equipment marked in the client's unit, and variants open to them.

    Heads without a weekly target have no entry in `group_of_head`.
    """
    rows = (
        Exercise.objects.filter(pk__in=ids)
        .annotate(
            easier=variant_name(ExerciseLink.Kind.EASIER, client, today),
            harder=variant_name(ExerciseLink.Kind.HARDER, client, today),
        )
        .order_by("pk", "credits__head__slug")
        .values_list(
            "pk",
            "name",
            "load_kind",
            "rep_unit",
            "body_share",
            "easier",
            "harder",
            "equipment__ladder",
            "equipment__ladder_lb",
            "credits__credit",
            "credits__head__slug",
            "credits__head__muscle__slug",
            "credits__head__group__slug",
        )
    )
    found: dict[int, ExerciseRow] = {}
    for pk, name, load_kind, rep_unit, share, easier, harder, ladder, ladder_lb, credit, head, muscle, group in rows:
        exercise = found.get(pk)
        if exercise is None:
            loads = ladder_of(description_in(ladder, ladder_lb, client.user.load_unit), load_kind)
            exercise = ExerciseRow(pk, name, rep_unit, loads, share, variants=Variants(easier or "", harder or ""))
        if head is not None:
            exercise = replace(
                exercise,
                credits=exercise.credits | {head: credit},
                muscle_of_head=exercise.muscle_of_head | {head: muscle},
                group_of_head=exercise.group_of_head | ({head: group} if group else {}),
            )
        found[pk] = exercise
    return found
