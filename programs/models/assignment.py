"""A client's own dated copy of a program."""

from datetime import date

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from accounts import access
from accounts.models import Client
from programs.models.exercise import Exercise
from programs.models.program import Program


class OfClientQuerySet(models.QuerySet):
    """Rows with a `client`: read by client and coaches, written by coaches."""

    def visible_to(self, user):
        return self.filter(client__in=access.clients_visible_to(user))

    def writable_by(self, user):
        return self.filter(client__in=access.clients_coached_by(user))


class AssignmentQuerySet(OfClientQuerySet):
    def not_over(self, day: date) -> "AssignmentQuerySet":
        """Return what is followed on `day` or later: running, paused, or with a last day that is still to come."""
        return self.exclude(Q(status="ended") & (Q(ended_on__lt=day) | Q(ended_on__lt=F("starts_on"))))


class Assignment(models.Model):
    class Status(models.TextChoices):
        ACTIVE = "active", _("running")
        PAUSED = "paused", _("paused")
        ENDED = "ended", _("ended")

    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="assignments")
    program = models.ForeignKey(Program, on_delete=models.SET_NULL, null=True, related_name="assignments")
    program_version = models.PositiveIntegerField()
    name = models.CharField(_("name"), max_length=120)
    starts_on = models.DateField(_("starts on"))
    weekdays = models.JSONField(_("weekdays"), help_text=_("Monday is 0; one for each training day of a week."))
    status = models.CharField(_("status"), max_length=10, choices=Status, default=Status.ACTIVE)
    paused_on = models.DateField(null=True, blank=True)
    # What a pause cancelled carries this very moment in `cancelled_at`, so that resuming brings back only that.
    paused_at = models.DateTimeField(null=True, blank=True)
    ended_on = models.DateField(null=True, blank=True)
    # As `paused_at`: what the end cancelled carries it, so that correcting the last day brings back only that.
    ended_at = models.DateTimeField(null=True, blank=True)
    # What was known of the client when the copy was fitted last (services/fit_since.py); None: before this was kept.
    fitted_to = models.JSONField(null=True, blank=True)
    # The fitting that made the copy; None where it was assigned without one.
    fitting = models.ForeignKey(
        "programs.Fitting", on_delete=models.SET_NULL, null=True, blank=True, related_name="assignments"
    )
    created_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    created_at = models.DateTimeField(auto_now_add=True)

    objects = AssignmentQuerySet.as_manager()

    class Meta:
        ordering = ["-starts_on", "-pk"]

    def __str__(self) -> str:
        return f"{self.name}: {self.client}"

    def is_over(self, day: date) -> bool:
        """Say whether `day` lies behind what is followed; the same rule as `not_over` for rows."""
        last = self.ended_on
        return self.status == self.Status.ENDED and last is not None and (last < day or last < self.starts_on)


class PlannedSession(models.Model):
    """One training day on one date (the client's calendar). A cancelled one stays: the past is not rewritten."""

    assignment = models.ForeignKey(Assignment, on_delete=models.CASCADE, related_name="sessions")
    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="planned_sessions")
    date = models.DateField(_("date"))
    day_name = models.CharField(_("training day"), max_length=80)
    block_name = models.CharField(_("block"), max_length=80)
    block_number = models.PositiveSmallIntegerField()
    week_number = models.PositiveSmallIntegerField(help_text=_("Counted from 1 within the block."))
    day_number = models.PositiveSmallIntegerField()
    # The parts of the program's document that this came from, and the version it was last written from: what a
    # revision finds it by. Empty: not known (the program is gone).
    week_key = models.CharField(max_length=24, blank=True, default="")
    day_key = models.CharField(max_length=24, blank=True, default="")
    program_version = models.PositiveIntegerField(null=True, blank=True)
    is_deload = models.BooleanField(_("deload"), default=False)
    cancelled_at = models.DateTimeField(null=True, blank=True)

    objects = OfClientQuerySet.as_manager()

    class Meta:
        ordering = ["date", "pk"]
        indexes = [models.Index(fields=["client", "date"])]

    def __str__(self) -> str:
        return f"{self.date} {self.day_name}"


class PlannedSlotQuerySet(models.QuerySet["PlannedSlot"]):
    def visible_to(self, user) -> "PlannedSlotQuerySet":
        return self.filter(session__client__in=access.clients_visible_to(user))

    def writable_by(self, user) -> "PlannedSlotQuerySet":
        return self.filter(session__client__in=access.clients_coached_by(user))


class PlannedSlot(models.Model):
    """One exercise of a planned session: prescription as written, and the worker's next target beside it."""

    session = models.ForeignKey(PlannedSession, on_delete=models.CASCADE, related_name="slots")
    slot_key = models.CharField(max_length=24, blank=True, default="")  # of the document; empty: not known
    position = models.PositiveSmallIntegerField()
    pair = models.CharField(_("pair"), max_length=2, blank=True)  # "A1", "A2"; empty: on its own
    exercise = models.ForeignKey(Exercise, on_delete=models.PROTECT, related_name="planned_slots")
    # "3-4 sets": `sets` is the upper number, which volume and compliance count; None: one number was written.
    sets_min = models.PositiveSmallIntegerField(_("sets from"), null=True, blank=True)
    sets = models.PositiveSmallIntegerField(_("sets"))
    reps_min = models.PositiveSmallIntegerField(_("repetitions from"))
    reps_max = models.PositiveSmallIntegerField(_("repetitions to"))
    rir_min = models.PositiveSmallIntegerField(_("RIR from"))
    rir_max = models.PositiveSmallIntegerField(_("RIR to"))
    rest_s = models.PositiveSmallIntegerField(_("rest (s)"))
    tempo = models.CharField(_("tempo"), max_length=12, blank=True)
    note = models.CharField(_("note"), max_length=300, blank=True)
    # Of an exercise done one side at a time: the side that was weaker last time comes first, else the left one.
    weaker_first = models.BooleanField(_("weaker side first"), default=False)
    # What the block's ramp means the load to be, in per cent of its first week's; 0: it says nothing. Advisory: shown
    # beside the target, which follows what was logged.
    load_pct = models.FloatField(_("load (% of the first week's)"), default=0)
    # Where the client begins with this exercise in this plan, as the coach accepted it; only on the first slot of it.
    start_load_kg = models.FloatField(_("starting load (kg)"), null=True, blank=True)
    # Derived by the worker: rebuilt from the logs at any time.
    target_load_kg = models.FloatField(null=True, blank=True)
    target_reps = models.PositiveSmallIntegerField(null=True, blank=True)
    # {"action", "code", "params", "rule_id", "version", "evidence": [set ids]}
    target_reason = models.JSONField(null=True, blank=True)

    objects = PlannedSlotQuerySet.as_manager()

    class Meta:
        ordering = ["position"]
        constraints = [
            models.UniqueConstraint(fields=["session", "position"], name="slot_position_once"),
            models.CheckConstraint(condition=Q(sets_min__lte=F("sets")), name="slot_sets_range"),
            models.CheckConstraint(condition=Q(reps_min__lte=F("reps_max")), name="slot_reps_range"),
            models.CheckConstraint(condition=Q(rir_min__lte=F("rir_max")), name="slot_rir_range"),
        ]

    @property
    def sets_written(self) -> str:
        """The sets as the coach wrote them: one number, or a range whose upper end is counted."""
        return f"{self.sets_min}–{self.sets}" if self.sets_min else str(self.sets)
