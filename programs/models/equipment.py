"""What a client trains with, and the loads it can really make."""

from django.core.exceptions import ValidationError
from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts import access
from accounts.models import Practice


class OwnOrLibraryQuerySet(models.QuerySet):
    """Rows of the shared library (no practice) and of the user's own practice."""

    def visible_to(self, user):
        if not user.is_authenticated:
            return self.none()
        practice = access.practice_of(user)
        return self.filter(models.Q(practice=None) | models.Q(practice=practice))

    def writable_by(self, user):
        membership = access.membership_of(user)
        return self.filter(practice=membership.practice) if membership else self.none()


def validate_ladder(value: object) -> None:
    """Refuse a ladder of loads that the arithmetic could not read."""
    from periodization.loads import ladder_from_dict

    try:
        ladder_from_dict(value)
    except (ValueError, TypeError, KeyError) as error:
        raise ValidationError(str(error)) from error


class Equipment(models.Model):
    class Kind(models.TextChoices):
        PLATES = "plates", _("loaded with plates")
        DUMBBELLS = "dumbbells", _("fixed weights")
        STACK = "stack", _("weight stack with a pin")
        BODY = "body", _("body weight")
        ASSISTED = "assisted", _("assisted body weight")
        NONE = "none", _("no countable load")

    practice = models.ForeignKey(Practice, on_delete=models.CASCADE, null=True, blank=True, related_name="equipment")
    slug = models.SlugField()
    name = models.CharField(_("name"), max_length=80)
    kind = models.CharField(_("kind"), max_length=12, choices=Kind)
    ladder = models.JSONField(_("loads"), validators=[validate_ladder])
    # The same equipment where it is marked in pounds: what a client who logs in pounds finds in the gym.
    ladder_lb = models.JSONField(_("loads in pounds"), null=True, blank=True, validators=[validate_ladder])
    archived_at = models.DateTimeField(null=True, blank=True)

    objects = OwnOrLibraryQuerySet.as_manager()

    class Meta:
        ordering = ["name"]
        constraints = [
            models.UniqueConstraint(fields=["practice", "slug"], name="equipment_slug"),
            # The library's rows have no practice, and to a database one NULL is not another.
            models.UniqueConstraint(fields=["slug"], condition=models.Q(practice=None), name="equipment_library_slug"),
        ]

    def __str__(self) -> str:
        return self.name
