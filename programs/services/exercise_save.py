"""Write a practice's own exercise."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from django.db import transaction
from django.utils import timezone
from django.utils.text import slugify

from accounts.models import Practice
from programs.models import Exercise, ExerciseLink, HeadCredit, JointAction, Limit
from programs.services.exercise_effects import exercises_changed

# A change of these changes what logged and planned sets count for, or what can be loaded next.
COUNTED = ("equipment_id", "laterality", "load_kind", "body_share", "rep_unit", "rest_s", "rep_s", "setup_s")


@dataclass(frozen=True, slots=True)
class CreditInput:
    head_id: int
    credit: float
    loaded_long: bool = False
    long_by_id: int | None = None


@dataclass(frozen=True, slots=True)
class LinkInput:
    other_id: int
    kind: str


@transaction.atomic
def exercise_save(
    *,
    practice: Practice,
    columns: Mapping[str, Any],
    actions: Iterable[JointAction],
    credits: Iterable[CreditInput],
    links: Iterable[LinkInput] = (),
    limits: Iterable[Limit] = (),
    exercise: Exercise | None = None,
) -> Exercise:
    """Make an own exercise of `practice`, or change `exercise`; credits and links are replaced as a whole.

    Plans that use a changed exercise are computed again. The caller has checked the values and the right to write.
    """
    row = Exercise.objects.select_for_update().get(pk=exercise.pk) if exercise else Exercise(practice=practice)
    before = _counts(row) if exercise else None
    for name, value in columns.items():
        setattr(row, name, value)
    if not row.slug:
        row.slug = free_slug(Exercise, practice, row.name)
    row.save()
    row.actions.set(actions)
    row.limits.set(limits)
    row.credits.all().delete()
    HeadCredit.objects.bulk_create(
        HeadCredit(
            exercise=row,
            head_id=item.head_id,
            credit=item.credit,
            loaded_long=item.loaded_long,
            long_by_id=item.long_by_id,
        )
        for item in credits
    )
    row.links.all().delete()
    ExerciseLink.objects.bulk_create(
        ExerciseLink(exercise=row, other_id=item.other_id, kind=item.kind, position=n) for n, item in enumerate(links)
    )
    if before is not None and _counts(row) != before:
        exercises_changed(Exercise.objects.filter(pk=row.pk))
    return row


def _counts(row: Exercise) -> tuple[Any, ...]:
    credits = sorted(HeadCredit.objects.filter(exercise=row).values_list("head_id", "credit"))
    return (*(getattr(row, name) for name in COUNTED), credits)


def free_slug(model: type, practice: Practice, name: str) -> str:
    """Return a slug from `name` that no row of the practice has."""
    most = model._meta.get_field("slug").max_length
    base = slugify(name)[: most - 5].strip("-") or "own"
    taken = set(model.objects.filter(practice=practice, slug__startswith=base).values_list("slug", flat=True))
    slug, n = base, 2
    while slug in taken:
        slug, n = f"{base}-{n}", n + 1
    return slug


@transaction.atomic
def exercise_archive(*, exercise: Exercise) -> None:
    """Take an own exercise out of the choices; plans and logs that name it keep it."""
    Exercise.objects.filter(pk=exercise.pk, archived_at=None).update(archived_at=timezone.now())


@transaction.atomic
def exercise_restore(*, exercise: Exercise) -> None:
    """Offer an archived exercise again."""
    Exercise.objects.filter(pk=exercise.pk).update(archived_at=None)
