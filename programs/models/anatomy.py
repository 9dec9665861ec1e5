"""Muscles, their heads and what they do; names after Terminologia Anatomica with the lay name beside them."""

from django.db import models
from django.utils.translation import gettext_lazy as _


class MuscleGroup(models.Model):
    """What a weekly volume target is set for (quadriceps, side shoulder, ...)."""

    slug = models.SlugField(unique=True)
    name = models.CharField(_("name"), max_length=60)
    region = models.CharField(_("region"), max_length=20)
    position = models.PositiveSmallIntegerField(default=0)

    class Meta:
        ordering = ["position"]

    def __str__(self) -> str:
        return self.name


class JointAction(models.Model):
    slug = models.SlugField(unique=True)
    joint = models.CharField(_("joint"), max_length=30)
    name = models.CharField(_("action"), max_length=60)
    lay_name = models.CharField(_("in plain words"), max_length=80)

    class Meta:
        ordering = ["joint", "name"]

    def __str__(self) -> str:
        return f"{self.joint} {self.name}"


class Muscle(models.Model):
    slug = models.SlugField(unique=True)
    name = models.CharField(_("name"), max_length=80)
    latin = models.CharField(_("Latin name"), max_length=120)
    ta98 = models.CharField(_("TA98 code"), max_length=60)
    lay_name = models.CharField(_("lay name"), max_length=80)
    position = models.PositiveSmallIntegerField(default=0)

    class Meta:
        ordering = ["position"]

    def __str__(self) -> str:
        return self.name


class Head(models.Model):
    """A part of a muscle that can be trained apart; a muscle without named parts has one head of its own name."""

    muscle = models.ForeignKey(Muscle, on_delete=models.CASCADE, related_name="heads")
    # None: tracked, but no weekly target is set for it.
    group = models.ForeignKey(MuscleGroup, on_delete=models.SET_NULL, null=True, blank=True, related_name="heads")
    slug = models.SlugField(unique=True)
    name = models.CharField(_("name"), max_length=80)
    joints = models.PositiveSmallIntegerField(
        _("joints"), default=1, help_text=_("Joints it crosses that exercises move independently.")
    )
    actions = models.ManyToManyField(JointAction, related_name="heads", verbose_name=_("joint actions"))
    position = models.PositiveSmallIntegerField(default=0)

    class Meta:
        ordering = ["position"]

    def __str__(self) -> str:
        return head_name(self.name, self.muscle.name)


def head_name(name: str, muscle: str) -> str:
    """Name a head by itself: with its muscle, unless it is all of it."""
    return name if name == muscle else f"{muscle}, {name}"
