"""How the client feels today: five published items, and body mass."""

import uuid

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts.models import Client, LoadUnit
from logbook.models.log_import import brought_in_by, brought_in_index
from logbook.models.owned import LoggedByClientQuerySet


def item(name: str) -> models.PositiveSmallIntegerField:
    return models.PositiveSmallIntegerField(name, validators=[MinValueValidator(1), MaxValueValidator(5)])


class CheckIn(models.Model):
    """Five items from 1 (worst) to 5 (best) after McLean et al. 2010; one a day, the last edit stands."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="check_ins")
    date = models.DateField(_("date"))
    fatigue = item(_("fatigue"))
    sleep = item(_("sleep quality"))
    soreness = item(_("muscle soreness"))
    stress = item(_("stress"))
    mood = item(_("mood"))
    # Muscle group slugs that are still sore, for the flag on soreness that lasts into the next exposure.
    sore_groups = models.JSONField(_("sore muscles"), default=list, blank=True)
    note = models.CharField(_("note"), max_length=300, blank=True)
    edited_at = models.DateTimeField()
    # [{"values": {...}, "edited_at": "...", "won": bool}]: what stood before, and what came too late to stand.
    earlier = models.JSONField(default=list, blank=True)
    imported = brought_in_by("check_in_rows")

    objects = LoggedByClientQuerySet.as_manager()

    class Meta:
        ordering = ["-date"]
        indexes = [brought_in_index("check_in_imported")]
        constraints = [models.UniqueConstraint(fields=["client", "date"], name="check_in_once_a_day")]

    @property
    def total(self) -> int:
        """The sum of the items, 5 to 25."""
        return self.fatigue + self.sleep + self.soreness + self.stress + self.mood


class BodyMass(models.Model):
    """Needed for body-weight and assisted exercises; the value stays in the unit it was typed in."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="body_masses")
    date = models.DateField(_("date"))
    mass = models.FloatField(_("body mass"))
    unit = models.CharField(_("unit"), max_length=2, choices=LoadUnit, default=LoadUnit.KG)
    mass_kg = models.FloatField(_("body mass (kg)"))
    edited_at = models.DateTimeField()
    earlier = models.JSONField(default=list, blank=True)
    imported = brought_in_by("body_mass_rows")

    objects = LoggedByClientQuerySet.as_manager()

    class Meta:
        ordering = ["-date", "-edited_at"]
        indexes = [brought_in_index("body_mass_imported")]
        constraints = [models.UniqueConstraint(fields=["client", "date"], name="body_mass_once_a_day")]
