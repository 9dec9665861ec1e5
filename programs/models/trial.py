"""What a coach tries in a program without saving it: steps of a scratch copy, beside the program and its history."""

from django.conf import settings
from django.db import models

from programs.models.program import Program


class TrialStepQuerySet(models.QuerySet["TrialStep"]):
    def visible_to(self, user) -> "TrialStepQuerySet":
        """A trial is seen by the one who tries, and no longer than the program is."""
        return self.filter(user=user, program__in=Program.objects.visible_to(user))

    def writable_by(self, user) -> "TrialStepQuerySet":
        return self.filter(user=user, program__in=Program.objects.writable_by(user))


class TrialStep(models.Model):
    """The document after step `number` of one person's trial of a program; step 0 is version `base_version` as kept.

    `undone` steps can be done again until another one is tried.
    """

    program = models.ForeignKey(Program, on_delete=models.CASCADE, related_name="trial_steps")
    user = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="+")
    base_version = models.PositiveIntegerField()
    number = models.PositiveIntegerField()
    document = models.JSONField()
    summary = models.CharField(max_length=200, blank=True)
    undone = models.BooleanField(default=False)
    created_at = models.DateTimeField(auto_now_add=True)

    objects = TrialStepQuerySet.as_manager()

    class Meta:
        ordering = ["number"]
        constraints = [models.UniqueConstraint(fields=["program", "user", "number"], name="trial_step_once")]
