"""Everything about one exercise that its page shows."""

from dataclasses import dataclass

from django.utils.translation import gettext as _

from accounts.models import Practice
from programs.models import GRADE_NAMES, Exercise, ExerciseLink, GradeOverride, HeadCredit, Limit
from programs.services.exercise_rows import credit_word, trained
from programs.services.exercise_substitutes import Substitute, substitutes_for
from programs.services.grades import MEANINGS, TITLES, WORDS
from programs.services.library_references import Citation, citations


@dataclass(frozen=True, slots=True)
class CreditLine:
    row: HeadCredit
    word: str
    long: str  # "" when the head is not loaded while long


@dataclass(frozen=True, slots=True)
class GradeLine:
    """One grade: the value of whoever wrote the exercise, and the practice's own beside it."""

    name: str
    title: str
    meaning: str
    value: int
    word: str
    reason: str
    sources: list[Citation]
    override: GradeOverride | None
    override_word: str


@dataclass(frozen=True, slots=True)
class Sheet:
    exercise: Exercise
    direct: list[str]
    also: list[str]
    credits: list[CreditLine]
    grades: list[GradeLine]
    citations: list[Citation]
    harder: list[Exercise]
    easier: list[Exercise]
    substitutes: list[Substitute]
    limits: list[Limit]


def exercise_sheet(exercise: Exercise, practice: Practice | None) -> Sheet:
    """Gather the page of `exercise` for a coach of `practice`; the caller has checked that they may see it."""
    credits = list(exercise.credits.select_related("head__muscle", "head__group", "long_by"))
    direct, also = trained(credits)
    sources = list(exercise.references.select_related("reference"))
    # Numbered in the order in which the grades are read, not in that of the list of references.
    sources.sort(key=lambda row: (GRADE_NAMES.index(row.claim), row.reference.slug))
    numbered = citations(row.reference.csl for row in sources)
    overrides = {
        row.grade: row
        for row in GradeOverride.objects.filter(exercise=exercise, practice=practice).select_related("author")
    }
    grades = []
    for name in GRADE_NAMES:
        value, own = getattr(exercise, f"grade_{name}"), overrides.get(name)
        grades.append(
            GradeLine(
                name=name,
                title=str(TITLES[name]),
                meaning=str(MEANINGS[name]),
                value=value,
                word=str(WORDS[value]),
                reason=exercise.grade_reasons.get(name, ""),
                sources=[numbered[row.reference.csl["id"]] for row in sources if row.claim == name],
                override=own,
                override_word=str(WORDS[own.value]) if own else "",
            )
        )
    links = ExerciseLink.objects.filter(exercise=exercise, other__archived_at=None).select_related("other__equipment")
    by_kind = {kind: [link.other for link in links if link.kind == kind] for kind in ExerciseLink.Kind.values}
    return Sheet(
        exercise=exercise,
        direct=direct,
        also=also,
        credits=[CreditLine(row, credit_word(row.credit), long_words(row)) for row in credits],
        grades=grades,
        citations=list(numbered.values()),
        harder=by_kind[ExerciseLink.Kind.HARDER],
        easier=by_kind[ExerciseLink.Kind.EASIER],
        substitutes=substitutes_for(exercise, practice, limit=8),
        limits=list(exercise.limits.all()),
    )


def long_words(row: HeadCredit) -> str:
    """Say how a head is loaded while long, naming the position of the other joint where it is what does it."""
    if not row.loaded_long:
        return ""
    if row.long_by is None:
        return _("at the end of its range")
    return _("%(joint)s in %(action)s") % {"joint": row.long_by.joint, "action": row.long_by.name}
