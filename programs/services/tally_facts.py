"""What the tally needs to know of exercises and muscles, read in a few queries whatever the size of the program."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from django.db.models import QuerySet

from programs.models import Exercise, Head, HeadCredit, Laterality, MuscleGroup
from programs.models.anatomy import head_name
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
    heads = list(
        Head.objects.order_by("muscle__position", "position").values_list(
            "slug", "name", "group__slug", "muscle__slug", "muscle__name"
        )
    )
    return Anatomy(
        groups=groups,
        group_of_head={head: group for head, _name, group, _muscle, _muscle_name in heads if group},
        muscle_of_head={head: muscle for head, _name, _group, muscle, _muscle_name in heads},
        head_names={head: head_name(name, muscle) for head, name, _group, _slug, muscle in heads},
        muscle_names={slug: name for _head, _name, _group, slug, name in heads},
    )


def load_facts(ids: Iterable[int]) -> dict[int, ExerciseFacts]:
    """Read the exercises with these ids (two queries). Not checked: whether the reader may see them; a program shows
    what it holds, also an exercise that has been archived since."""
    return facts_of(Exercise.objects.filter(pk__in=set(ids)))


def facts_of(
    exercises: QuerySet[Exercise], known: Mapping[int, ExerciseFacts] | None = None
) -> dict[int, ExerciseFacts]:
    """Return the facts of a queryset of exercises, in its order (two queries); `known` are not made again."""
    known = known or {}
    # Plain values: they are read anew for every change of a program, and as objects would cost most of it.
    rows = list(exercises.values_list(*COLUMNS))
    credits: dict[int, dict[str, float]] = {row[0]: {} for row in rows if row[0] not in known}
    names: dict[str, tuple[str, str]] = {}
    long: dict[int, list[str]] = {pk: [] for pk in credits}
    found = HeadCredit.objects.filter(exercise__in=list(credits)).values_list(
        "exercise", "credit", "loaded_long", "head__slug", "head__name", "head__muscle__name"
    )
    for pk, credit, loaded_long, head, name, muscle in found:
        credits[pk][head] = credit
        if loaded_long:
            long[pk].append(head)
        names[head] = muscle, name
    return {row[0]: known.get(row[0]) or _fact(row, credits[row[0]], names, long[row[0]]) for row in rows}


# What `_fact` takes apart.
COLUMNS = ("pk", "name", "equipment__name", "cautions", "archived_at", "laterality", "rep_unit", "rep_s", "setup_s")


def _fact(
    row: tuple[Any, ...], credits: Mapping[str, float], names: Mapping[str, tuple[str, str]], long: Iterable[str]
) -> ExerciseFacts:
    pk, name, equipment, cautions, archived_at, laterality, rep_unit, rep_s, setup_s = row
    reps = rep_unit == RepUnit.REPS
    return ExerciseFacts(
        pk=pk,
        name=name,
        equipment=equipment,
        cautions=tuple(cautions),
        archived=archived_at is not None,
        one_sided=laterality != Laterality.BOTH,
        sides_in_turn=laterality == Laterality.SINGLE,
        rep_s=rep_s if reps else 1,
        rep_unit="" if reps else str(RepUnit(rep_unit).label),
        setup_s=setup_s,
        credits=credits,
        main={slug: names[slug] for slug in main_heads(credits)},
        long=frozenset(long),
    )


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
