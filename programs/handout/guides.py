"""How each exercise is done, and why it was chosen: read for all exercises of a hand-out at once."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from accounts.models import Practice
from programs.models import GRADE_NAMES, Exercise, ExerciseReference, GradeOverride, Laterality
from programs.services.grades import TITLES
from programs.services.library_references import Citation, citations


@dataclass(frozen=True, slots=True)
class Reason:
    """One grade's reason, and the numbers of what stands behind it. A practice's own reason has no reference."""

    title: str
    text: str
    sources: Sequence[Citation]


@dataclass(frozen=True, slots=True)
class Facts:
    name: str
    equipment: str
    equipment_kind: str
    load_kind: str
    rep_unit: str
    one_sided: bool
    laterality: str
    set_up: str
    cues: Sequence[str]
    cautions: Sequence[str]
    reasons: Sequence[tuple[str, str]]  # grade's name, sentence


@dataclass(frozen=True, slots=True)
class Guide:
    number: int
    facts: Facts
    reasons: Sequence[Reason]


def load_facts(ids: Iterable[int]) -> dict[int, Facts]:
    """Read exercises by id (one query), archived ones too: a program shows what it holds."""
    rows = Exercise.objects.filter(pk__in=set(ids)).select_related("equipment")
    return {row.pk: _facts(row) for row in rows}


def make_guides(
    order: Sequence[int], facts: Mapping[int, Facts], practice: Practice, with_reasons: bool
) -> tuple[list[Guide], list[Citation]]:
    """Number the exercises in the order of their first use, and their references in the order of reading."""
    order = [pk for pk in order if pk in facts]
    if not with_reasons:
        return [Guide(n, facts[pk], ()) for n, pk in enumerate(order, 1)], []
    own = {
        (row.exercise_id, row.grade): row.reason
        for row in GradeOverride.objects.filter(practice=practice, exercise__in=order)
    }
    rows = list(ExerciseReference.objects.filter(exercise__in=order).select_related("reference"))
    rows = [row for row in rows if not own.get((row.exercise_id, row.claim))]
    place = {pk: number for number, pk in enumerate(order)}
    rows.sort(key=lambda row: (place[row.exercise_id], _grade_place(row.claim), row.reference.slug))
    numbered = citations(row.reference.csl for row in rows)
    sources: dict[tuple[int, str], list[Citation]] = {}
    for row in rows:
        sources.setdefault((row.exercise_id, row.claim), []).append(numbered[row.reference.csl["id"]])
    guides = []
    for number, pk in enumerate(order, 1):
        reasons = [
            Reason(str(TITLES[name]), own.get((pk, name)) or text, sources.get((pk, name), ()))
            for name, text in facts[pk].reasons
        ]
        guides.append(Guide(number, facts[pk], reasons))
    return guides, list(numbered.values())


def _grade_place(claim: str) -> int:
    return GRADE_NAMES.index(claim) if claim in GRADE_NAMES else len(GRADE_NAMES)


def _facts(row: Exercise) -> Facts:
    reasons = [(name, row.grade_reasons[name]) for name in GRADE_NAMES if row.grade_reasons.get(name)]
    return Facts(
        name=row.name,
        equipment=row.equipment.name,
        equipment_kind=row.equipment.kind,
        load_kind=row.load_kind,
        rep_unit=row.rep_unit,
        one_sided=row.laterality == Laterality.SINGLE,
        laterality=row.get_laterality_display() if row.laterality != Laterality.BOTH else "",
        set_up=row.set_up,
        cues=row.cues,
        cautions=row.cautions,
        reasons=reasons,
    )
