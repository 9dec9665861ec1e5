"""Write a practice's own equipment."""

from typing import Any

from django.db import transaction
from django.utils import timezone

from accounts.models import Practice
from programs.models import Equipment, Exercise
from programs.services.exercise_effects import exercises_changed
from programs.services.exercise_save import free_slug


@transaction.atomic
def equipment_save(
    *, practice: Practice, name: str, kind: str, ladder: dict[str, Any], equipment: Equipment | None = None
) -> Equipment:
    """Make own equipment of `practice`, or change `equipment`; next loads of exercises done with it are made again.

    `ladder` is as periodization.loads reads it; ValidationError (a field's name to its messages) when it is not.
    """
    row = Equipment.objects.select_for_update().get(pk=equipment.pk) if equipment else Equipment(practice=practice)
    changed = row.pk is not None and (row.kind, row.ladder) != (kind, ladder)
    row.name, row.kind, row.ladder = name, kind, ladder
    if not row.slug:
        row.slug = free_slug(Equipment, practice, name)
    row.full_clean()
    row.save()
    if changed:
        exercises_changed(Exercise.objects.filter(equipment=row))
    return row


@transaction.atomic
def equipment_archive(*, equipment: Equipment) -> None:
    """Take own equipment out of the choices; exercises that name it keep it."""
    Equipment.objects.filter(pk=equipment.pk, archived_at=None).update(archived_at=timezone.now())


@transaction.atomic
def equipment_restore(*, equipment: Equipment) -> None:
    """Offer archived equipment again."""
    Equipment.objects.filter(pk=equipment.pk).update(archived_at=None)
