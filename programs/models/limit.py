"""What an exercise asks of a joint or of the body's position, so that it can be kept from a client who must not."""

from django.db import models
from django.utils.translation import gettext_lazy as _


class Site(models.TextChoices):
    """Where in the body; a report of pain names the same places."""

    NECK = "neck", _("neck")
    SHOULDER = "shoulder", _("shoulder")
    ELBOW = "elbow", _("elbow")
    WRIST_HAND = "wrist_hand", _("wrist or hand")
    UPPER_BACK = "upper_back", _("upper back")
    LOWER_BACK = "lower_back", _("lower back")
    CHEST = "chest", _("chest")
    HIP = "hip", _("hip or groin")
    THIGH = "thigh", _("thigh")
    KNEE = "knee", _("knee")
    LOWER_LEG = "lower_leg", _("lower leg")
    ANKLE_FOOT = "ankle_foot", _("ankle or foot")
    OTHER = "other", _("elsewhere")


class Limit(models.Model):
    """One stress or position of the library's list (library/limits.json); an exercise has it or has it not."""

    slug = models.SlugField(unique=True)
    name = models.CharField(_("name"), max_length=60)
    sentence = models.CharField(_("in a sentence"), max_length=200)
    site = models.CharField(_("where"), max_length=12, choices=Site)
    position = models.PositiveSmallIntegerField(default=0)

    class Meta:
        ordering = ["position"]

    def __str__(self) -> str:
        return self.name
