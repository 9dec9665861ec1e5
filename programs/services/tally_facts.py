"""What the tally needs to know of exercises and muscles, read in a few queries whatever the size of the program."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from django.db.models import QuerySet

from programs.models import Exercise, Head, HeadCredit, Laterality, MuscleGroup
from programs.models.exercise import RepUnit


@dataclass(frozen=True, slots=True)
class ExerciseFacts:
    """`credits` are by head slug; `heads` the names of those trained directly."""

    pk: int
    name: str
    equipment: str
    cautions: tuple[str, ...]
    archived: bool
    one_sided: bool
    rep_s: int
    rep_unit: str  # empty when repetitions are counted, else what is ("seconds held")
    setup_s: int
    credits: Mapping[str, float] = field(default_factory=dict)
    heads: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Anatomy:
    """`groups` names by slug, in reading order; `group_of_head` leaves out the heads that no target is set for."""

    groups: Mapping[str, str]
    group_of_head: Mapping[str, str]
    muscle_of_head: Mapping[str, str]
    head_names: Mapping[str, str]


def load_anatomy() -> Anatomy:
    """Read all groups and heads (two queries)."""
    groups = dict(MuscleGroup.objects.values_list("slug", "name"))
    heads = list(Head.objects.select_related("muscle", "group").order_by("muscle__position", "position"))
    return Anatomy(
        groups=groups,
        group_of_head={head.slug: head.group.slug for head in heads if head.group},
        muscle_of_head={head.slug: head.muscle.slug for head in heads},
        head_names={head.slug: str(head) for head in heads},
    )


def load_facts(ids: Iterable[int]) -> dict[int, ExerciseFacts]:
    """Read the exercises with these ids (two queries). Not checked: whether the reader may see them; a program shows
    what it holds, also an exercise that has been archived since."""
    return facts_of(Exercise.objects.filter(pk__in=set(ids)))


def facts_of(exercises: QuerySet[Exercise]) -> dict[int, ExerciseFacts]:
    """Return the facts of a queryset of exercises, in its order (two queries)."""
    rows = list(exercises.select_related("equipment"))
    credits: dict[int, dict[str, float]] = {row.pk: {} for row in rows}
    heads: dict[int, list[str]] = {row.pk: [] for row in rows}
    for credit in HeadCredit.objects.filter(exercise__in=[row.pk for row in rows]).select_related("head__muscle"):
        credits[credit.exercise_id][credit.head.slug] = credit.credit
        if credit.credit == 1:
            heads[credit.exercise_id].append(str(credit.head))
    return {
        row.pk: ExerciseFacts(
            pk=row.pk,
            name=row.name,
            equipment=row.equipment.name,
            cautions=tuple(row.cautions),
            archived=row.archived_at is not None,
            # Alternating sides also does every repetition twice.
            one_sided=row.laterality != Laterality.BOTH,
            # Held seconds and steps take about a second each, whatever a repetition of it would.
            rep_s=row.rep_s if row.rep_unit == RepUnit.REPS else 1,
            rep_unit="" if row.rep_unit == RepUnit.REPS else row.get_rep_unit_display(),
            setup_s=row.setup_s,
            credits=credits[row.pk],
            heads=tuple(heads[row.pk]),
        )
        for row in rows
    }
