"""What the tally needs to know of exercises and muscles, read in a few queries whatever the size of the program."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from django.db.models import QuerySet

from programs.models import Exercise, Head, HeadCredit, Laterality, MuscleGroup
from programs.models.exercise import RepUnit


@dataclass(frozen=True, slots=True)
class ExerciseFacts:
    """`credits` are by head slug; `main` names (muscle, head) by slug where the exercise gives its highest credit.
    `long` are the heads it loads while long."""

    pk: int
    name: str
    equipment: str
    cautions: tuple[str, ...]
    archived: bool
    one_sided: bool
    sides_in_turn: bool
    rep_s: int
    rep_unit: str  # empty when repetitions are counted, else what is ("seconds held")
    setup_s: int
    credits: Mapping[str, float] = field(default_factory=dict)
    main: Mapping[str, tuple[str, str]] = field(default_factory=dict)
    long: frozenset[str] = frozenset()

    @property
    def heads(self) -> str:
        return muscle_words(self.main.values())


@dataclass(frozen=True, slots=True)
class Anatomy:
    """`groups` names by slug, in reading order; `group_of_head` leaves out the heads that no target is set for."""

    groups: Mapping[str, str]
    group_of_head: Mapping[str, str]
    muscle_of_head: Mapping[str, str]
    head_names: Mapping[str, str]
    muscle_names: Mapping[str, str] = field(default_factory=dict)


def load_anatomy() -> Anatomy:
    """Read all groups and heads (two queries)."""
    groups = dict(MuscleGroup.objects.values_list("slug", "name"))
    heads = list(Head.objects.select_related("muscle", "group").order_by("muscle__position", "position"))
    return Anatomy(
        groups=groups,
        group_of_head={head.slug: head.group.slug for head in heads if head.group},
        muscle_of_head={head.slug: head.muscle.slug for head in heads},
        head_names={head.slug: str(head) for head in heads},
        muscle_names={head.muscle.slug: head.muscle.name for head in heads},
    )


def load_facts(ids: Iterable[int]) -> dict[int, ExerciseFacts]:
    """Read the exercises with these ids (two queries). Not checked: whether the reader may see them; a program shows
    what it holds, also an exercise that has been archived since."""
    return facts_of(Exercise.objects.filter(pk__in=set(ids)))


def facts_of(exercises: QuerySet[Exercise]) -> dict[int, ExerciseFacts]:
    """Return the facts of a queryset of exercises, in its order (two queries)."""
    rows = list(exercises.select_related("equipment").defer("set_up", "cues", "grade_reasons"))
    credits: dict[int, dict[str, float]] = {row.pk: {} for row in rows}
    names: dict[str, tuple[str, str]] = {}
    long: dict[int, list[str]] = {row.pk: [] for row in rows}
    # Plain values: they are read anew for every change of a program, and as objects would cost most of it.
    found = HeadCredit.objects.filter(exercise__in=list(credits)).values_list(
        "exercise", "credit", "loaded_long", "head__slug", "head__name", "head__muscle__name"
    )
    for pk, credit, loaded_long, head, name, muscle in found:
        credits[pk][head] = credit
        if loaded_long:
            long[pk].append(head)
        names[head] = muscle, name
    return {
        row.pk: ExerciseFacts(
            pk=row.pk,
            name=row.name,
            equipment=row.equipment.name,
            cautions=tuple(row.cautions),
            archived=row.archived_at is not None,
            one_sided=row.each_side,
            sides_in_turn=row.laterality == Laterality.SINGLE,
            rep_s=row.seconds_a_rep,
            rep_unit="" if row.rep_unit == RepUnit.REPS else row.get_rep_unit_display(),
            setup_s=row.setup_s,
            credits=credits[row.pk],
            main={slug: names[slug] for slug in main_heads(credits[row.pk])},
            long=frozenset(long[row.pk]),
        )
        for row in rows
    }


def main_heads(credits: Mapping[str, float]) -> list[str]:
    """Return the heads with the exercise's highest credit; a row that gives no head a full set has main heads too."""
    most = max(credits.values(), default=0.0)
    return [slug for slug, credit in credits.items() if credit == most]


def muscle_words(names: Iterable[tuple[str, str]]) -> str:
    """Write (muscle, head) names with the heads of one muscle together: `triceps (long head, medial head)`."""
    together: dict[str, list[str]] = {}
    for muscle, head in names:
        together.setdefault(muscle, []).extend([head] if head != muscle else [])
    return ", ".join(f"{muscle} ({', '.join(heads)})" if heads else muscle for muscle, heads in together.items())
