"""An exercise: what it loads, how it is set up, what can hurt, and how a coach judges it."""

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from accounts.models import Practice
from programs.models.anatomy import Head, JointAction
from programs.models.equipment import Equipment, OwnOrLibraryQuerySet
from programs.models.limit import Limit


class Laterality(models.TextChoices):
    BOTH = "both", _("both sides together")
    SINGLE = "single", _("one side at a time")
    ALTERNATING = "alternating", _("alternating sides")


class LoadKind(models.TextChoices):
    EXTERNAL = "external", _("external load")
    BODY_PLUS = "body_plus", _("body weight plus load")
    ASSISTED = "assisted", _("body weight minus assistance")


class RepUnit(models.TextChoices):
    REPS = "reps", _("repetitions")
    SECONDS = "seconds", _("seconds held")
    STEPS = "steps", _("steps")


def grade_field(name: str) -> models.PositiveSmallIntegerField:
    return models.PositiveSmallIntegerField(name, validators=[MinValueValidator(1), MaxValueValidator(5)])


class Exercise(models.Model):
    """A row without a practice belongs to the library; a practice adds its own and overrides grades beside it."""

    practice = models.ForeignKey(Practice, on_delete=models.CASCADE, null=True, blank=True, related_name="exercises")
    slug = models.SlugField(max_length=80)
    name = models.CharField(_("name"), max_length=120)
    equipment = models.ForeignKey(Equipment, on_delete=models.PROTECT, related_name="exercises")
    actions = models.ManyToManyField(JointAction, related_name="exercises", verbose_name=_("joint actions"))
    laterality = models.CharField(_("sides"), max_length=12, choices=Laterality, default=Laterality.BOTH)
    load_kind = models.CharField(_("kind of load"), max_length=12, choices=LoadKind, default=LoadKind.EXTERNAL)
    # What "repetitions" counts. An estimated maximum (e1RM) is only for REPS; held seconds and steps
    # have no repetition maximum, so whoever estimates strength or suggests a load from it skips the other two.
    # How much of the body it moves, where the body is part of the load: all of it in a pull-up, not in a push-up.
    body_share = models.FloatField(
        _("share of body weight moved"), default=1.0, validators=[MinValueValidator(0.05), MaxValueValidator(1.0)]
    )
    rep_unit = models.CharField(_("counted in"), max_length=8, choices=RepUnit, default=RepUnit.REPS)
    compound = models.BooleanField(_("moves several joints"), default=False)
    set_up = models.TextField(_("set-up"))
    cues = models.JSONField(_("cues"), default=list)
    cautions = models.JSONField(_("cautions"), default=list)
    rest_s = models.PositiveSmallIntegerField(_("usual rest (s)"), default=120)
    rep_s = models.PositiveSmallIntegerField(_("usual seconds a repetition"), default=4)
    setup_s = models.PositiveSmallIntegerField(_("change-over (s)"), default=60)
    grade_activation = grade_field(_("activation"))
    grade_long_length = grade_field(_("load at long length"))
    grade_loadability = grade_field(_("loadability"))
    grade_near_failure = grade_field(_("safety near failure"))
    # {"activation": "reason in a sentence", "long_length": ..., "loadability": ..., "near_failure": ...}
    grade_reasons = models.JSONField(_("reasons"), default=dict)
    limits = models.ManyToManyField(Limit, related_name="exercises", blank=True, verbose_name=_("joints and positions"))
    # Until someone went through the list, an empty one means "not known": not for a client with a limit.
    limits_judged = models.BooleanField(_("joints and positions judged"), default=False)
    archived_at = models.DateTimeField(null=True, blank=True)

    objects = OwnOrLibraryQuerySet.as_manager()

    class Meta:
        ordering = ["name", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["practice", "slug"], name="exercise_slug"),
            # The library's rows have no practice, and to a database one NULL is not another.
            models.UniqueConstraint(fields=["slug"], condition=models.Q(practice=None), name="exercise_library_slug"),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def has_maximum(self) -> bool:
        """Say whether an e1RM means anything for this exercise."""
        return self.rep_unit == RepUnit.REPS

    @property
    def each_side(self) -> bool:
        """Say whether a set is done once for each side; alternating sides also does every repetition twice."""
        return self.laterality != Laterality.BOTH

    @property
    def seconds_a_rep(self) -> int:
        """The seconds that one of what is counted takes; held seconds and steps take about one each."""
        return self.rep_s if self.has_maximum else 1


class HeadCredit(models.Model):
    """How much one set of the exercise counts for a muscle head: 1 direct, 0.5 indirect, any value over 0 to 1."""

    exercise = models.ForeignKey(Exercise, on_delete=models.CASCADE, related_name="credits")
    head = models.ForeignKey(Head, on_delete=models.PROTECT, related_name="credits")
    credit = models.FloatField(_("credit"), validators=[MinValueValidator(0.05), MaxValueValidator(1.0)])
    loaded_long = models.BooleanField(_("loaded while long"), default=False)
    # For a head over two joints: the position of the joint that is not trained, which makes it long (overhead triceps
    # extension: shoulder flexion). Without it "long" would only mean "the exercise goes through a full range".
    long_by = models.ForeignKey(
        JointAction,
        on_delete=models.PROTECT,
        related_name="+",
        null=True,
        blank=True,
        verbose_name=_("other joint held in"),
    )

    class Meta:
        ordering = ["-credit", "head__position"]
        constraints = [
            models.UniqueConstraint(fields=["exercise", "head"], name="credit_once_per_head"),
            models.CheckConstraint(
                condition=models.Q(credit__gt=0) & models.Q(credit__lte=1), name="credit_between_0_and_1"
            ),
        ]


class ExerciseLink(models.Model):
    """From one exercise to a variant of it."""

    class Kind(models.TextChoices):
        HARDER = "harder", _("harder variant")
        EASIER = "easier", _("easier variant")
        SUBSTITUTE = "substitute", _("substitute")

    exercise = models.ForeignKey(Exercise, on_delete=models.CASCADE, related_name="links")
    other = models.ForeignKey(Exercise, on_delete=models.CASCADE, related_name="linked_from")
    kind = models.CharField(max_length=12, choices=Kind)
    position = models.PositiveSmallIntegerField(default=0)

    class Meta:
        ordering = ["kind", "position"]
        constraints = [models.UniqueConstraint(fields=["exercise", "other", "kind"], name="link_once")]
