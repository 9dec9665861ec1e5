"""A link by which anyone who has it reads one hand-out, until it expires or is withdrawn."""

import datetime as dt

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from programs.models.assignment import Assignment
from programs.models.program import Program


class HandoutLinkQuerySet(models.QuerySet["HandoutLink"]):
    def visible_to(self, user) -> "HandoutLinkQuerySet":
        """Links to programs of the practice, and to copies of clients whose plan the user writes; clients see none."""
        programs = Program.objects.visible_to(user).values("pk")
        assignments = Assignment.objects.writable_by(user).values("pk")
        return self.filter(Q(program__in=programs) | Q(assignment__in=assignments))

    def writable_by(self, user) -> "HandoutLinkQuerySet":
        """Whoever made a link withdraws it, and whoever may change what it shows."""
        programs = Program.objects.writable_by(user).values("pk")
        assignments = Assignment.objects.writable_by(user).values("pk")
        mine = self.visible_to(user).filter(created_by=user.pk).values("pk")
        return self.filter(Q(pk__in=mine) | Q(program__in=programs) | Q(assignment__in=assignments))


class HandoutLink(models.Model):
    """Only the hash of the link's secret is stored: a leaked database opens no link.

    A link to a program shows the version it was made of; a link to a client's copy shows the copy as it stands.
    """

    program = models.ForeignKey(Program, on_delete=models.CASCADE, null=True, blank=True, related_name="handout_links")
    program_version = models.PositiveIntegerField(null=True, blank=True)
    assignment = models.ForeignKey(
        Assignment, on_delete=models.CASCADE, null=True, blank=True, related_name="handout_links"
    )
    token_hash = models.CharField(max_length=64, unique=True)
    # programs/handout/options.py
    options = models.JSONField(default=dict)
    created_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="+")
    created_at = models.DateTimeField(auto_now_add=True)
    expires_at = models.DateTimeField(_("valid until"))
    withdrawn_at = models.DateTimeField(null=True, blank=True)
    opened_at = models.DateTimeField(_("last opened"), null=True, blank=True)
    opened = models.PositiveIntegerField(_("times opened"), default=0)

    objects = HandoutLinkQuerySet.as_manager()

    class Meta:
        ordering = ["-created_at", "-pk"]
        constraints = [
            models.CheckConstraint(
                condition=Q(program=None, assignment__isnull=False)
                | Q(assignment=None, program__isnull=False, program_version__isnull=False),
                name="link_to_one_thing",
            )
        ]

    def __str__(self) -> str:
        return f"{self.program or self.assignment}"

    def is_open(self, now: dt.datetime) -> bool:
        """Say whether the link still works; `now` is aware."""
        return self.withdrawn_at is None and now < self.expires_at
