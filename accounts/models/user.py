"""A person who can sign in, by e-mail address."""

import datetime as dt
import zoneinfo

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.core.exceptions import ValidationError
from django.db import models
from django.db.models.functions import Lower
from django.utils import timezone
from django.utils.crypto import salted_hmac
from django.utils.translation import gettext_lazy as _


class LoadUnit(models.TextChoices):
    KG = "kg", _("kilograms (kg)")
    LB = "lb", _("pounds (lb)")


def validate_time_zone(value: str) -> None:
    """Refuse a name that the time zone database does not know."""
    if value not in zoneinfo.available_timezones():
        raise ValidationError(_("%(value)s is not a known time zone."), params={"value": value})


class UserManager(BaseUserManager["User"]):
    def create_user(self, *, email: str, password: str | None = None, **fields: object) -> "User":
        """Create a person; without a password they can only come in by an invitation or a reset link."""
        user = self.model(email=self.normalize_email(email).lower(), **fields)
        user.set_password(password)
        user.save(using=self._db)
        return user

    def get_by_natural_key(self, email: str) -> "User":
        return self.get(email__iexact=email)


class User(AbstractBaseUser):
    """A coach, a client, or both. Rights come from memberships and engagements, never from fields here."""

    email = models.EmailField(_("e-mail address"), max_length=254, unique=True)
    name = models.CharField(_("name"), max_length=120, blank=True)
    time_zone = models.CharField(_("time zone"), max_length=64, default="UTC", validators=[validate_time_zone])
    load_unit = models.CharField(_("unit of load"), max_length=2, choices=LoadUnit, default=LoadUnit.KG)
    # A code of accounts/languages.py; empty, and on an installation without that language: as the browser asks.
    language = models.CharField(_("language"), max_length=16, blank=True, default="")
    weekly_letter = models.BooleanField(
        _("a letter about the week, on Monday morning"),
        default=True,
        help_text=_("By e-mail. Clients read about their own training, coaches about how many sessions were done."),
    )
    is_active = models.BooleanField(default=True)
    # Counted up to end every session of the person at once; it is part of what a session is checked against.
    session_epoch = models.PositiveIntegerField(default=0, editable=False)
    date_joined = models.DateTimeField(default=timezone.now)

    objects = UserManager()

    EMAIL_FIELD = "email"
    USERNAME_FIELD = "email"
    REQUIRED_FIELDS: list[str] = []

    class Meta:
        # Lower() makes the address unique whatever its capitals, on both database engines.
        constraints = [models.UniqueConstraint(Lower("email"), name="user_email_unique")]

    def __str__(self) -> str:
        return self.name or self.email

    def _get_session_auth_hash(self, secret: str | None = None) -> str:
        """Make sessions depend on the epoch as well as on the password."""
        return salted_hmac(
            "accounts.User.session", f"{self.password}:{self.session_epoch}", secret=secret, algorithm="sha256"
        ).hexdigest()

    @property
    def zone(self) -> zoneinfo.ZoneInfo:
        return zoneinfo.ZoneInfo(self.time_zone)

    def day_of(self, moment: dt.datetime) -> dt.date:
        """Return the day of the person's own calendar on which `moment` (with a zone) falls."""
        return moment.astimezone(self.zone).date()

    def today(self) -> dt.date:
        """Return the calendar day that it is now where the person is."""
        return self.day_of(timezone.now())

    @property
    def is_staff(self) -> bool:
        """No one is staff: there is no back door beside accounts/access.py."""
        return False
