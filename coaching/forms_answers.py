"""What each kind of question lets a coach choose beside yes and no."""

from typing import Any

from django import forms
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from coaching.forms import AcceptForm
from coaching.models import Prompt
from coaching.recompute.calendar import WEEK
from coaching.services.choice import Choice
from programs.models import Exercise, PlannedSlot
from programs.services.client_limits import limits_of_client
from programs.services.exercise_substitutes import substitutes_for
from programs.services.limits import exercises_within

SHARES = [(share, f"{share} %") for share in (40, 50, 60, 70)]
MOST_SUBSTITUTES = 8


class DeloadAnswer(AcceptForm):
    """An empty field means: as proposed."""

    sets_share = forms.TypedChoiceField(
        label=gettext_lazy("Sets left"), choices=SHARES, coerce=int, required=False, empty_value=None
    )
    rir_up = forms.IntegerField(label=gettext_lazy("RIR up by"), min_value=0, max_value=4, required=False)

    def start(self) -> None:
        self.initial |= {"sets_share": round(100 * self.stored["sets_share"]), "rir_up": self.stored["rir_up"]}

    def choice(self) -> Choice | None:
        percent, up = self.cleaned_data["sets_share"], self.cleaned_data["rir_up"]
        share = self.stored["sets_share"] if percent is None else percent / 100
        up = self.stored["rir_up"] if up is None else up
        same = (share, up) == (self.stored["sets_share"], self.stored["rir_up"])
        return None if same else Choice(sets_share=share, rir_up=up)


class HoldAnswer(AcceptForm):
    """An empty field means: as proposed."""

    rir_up = forms.IntegerField(label=gettext_lazy("RIR up by"), min_value=1, max_value=4, required=False)

    def start(self) -> None:
        self.initial |= {"rir_up": self.stored["rir_up"]}

    def choice(self) -> Choice | None:
        up = self.cleaned_data["rir_up"]
        return None if up in (None, self.stored["rir_up"]) else Choice(rir_up=up)


class SwapAnswer(AcceptForm):
    to_exercise = forms.TypedChoiceField(label=gettext_lazy("Instead"), coerce=int)

    def start(self) -> None:
        self.fields["to_exercise"].choices = self.substitutes()

    def substitutes(self) -> list[tuple[int, str]]:
        """What trains nearly the same, is open to the client, and does not load the site that hurts."""
        client = self.prompt.client
        exercise = Exercise.objects.select_related("equipment").get(pk=self.stored["exercise"])
        equipment = list(client.equipment.values_list("equipment", flat=True)) or None
        found = substitutes_for(exercise, client.practice, equipment, limit=40)
        limits = limits_of_client(client, client.user.today())
        rows = exercises_within(Exercise.objects.filter(pk__in=[one.exercise.pk for one in found]), limits)
        allowed = set(rows.exclude(limits__site=self.stored["site"]).values_list("pk", flat=True)) - self.stopped()
        return [(one.exercise.pk, one.exercise.name) for one in found if one.exercise.pk in allowed][:MOST_SUBSTITUTES]

    def stopped(self) -> set[int]:
        """What pain stopped in these weeks: one of them is no way out of another."""
        lately = self.prompt.week - WEEK
        rows = Prompt.objects.filter(client=self.prompt.client_id, kind=self.prompt.kind, week__gte=lately)
        return set(rows.values_list("proposal__exercise", flat=True))

    def choice(self) -> Choice:
        return Choice(to_exercise=self.cleaned_data["to_exercise"])


class ProgressAnswer(AcceptForm):
    slots = forms.TypedMultipleChoiceField(
        label=gettext_lazy("One more set of"), widget=forms.CheckboxSelectMultiple, coerce=int
    )

    def start(self) -> None:
        """Offer what is not begun; what is begun stays as it is, whatever was proposed."""
        ids = [one["slot"] for one in self.stored["slots"]]
        open_slots = PlannedSlot.objects.filter(pk__in=ids, session__performed=None)
        found = {slot.pk: slot for slot in open_slots.select_related("session", "exercise")}
        offered = [one for one in self.stored["slots"] if one["slot"] in found]
        self.fields["slots"].choices = [(one["slot"], _more_sets(found[one["slot"]], one)) for one in offered]
        self.initial |= {"slots": [one["slot"] for one in offered]}

    def choice(self) -> Choice | None:
        chosen = self.cleaned_data["slots"]
        return None if len(chosen) == len(self.initial["slots"]) else Choice(slots=chosen)


def _more_sets(slot: PlannedSlot, proposed: dict[str, Any]) -> str:
    before, after = proposed["sets"]
    return f"{slot.exercise}, {date_format(slot.session.date, _('D j M'))}: {before} → {after}"


class ContactAnswer(AcceptForm):
    text = forms.CharField(label=gettext_lazy("Comment"), max_length=2000, widget=forms.Textarea(attrs={"rows": 3}))

    def start(self) -> None:
        hello = _("Hello %(name)s, I have not seen a session of yours for a while. Is everything all right?")
        self.initial |= {"text": hello % {"name": self.prompt.client}}

    def choice(self) -> Choice:
        return Choice(text=self.cleaned_data["text"])


FORMS: dict[str, type[AcceptForm]] = {
    "deload": DeloadAnswer,
    "hold": HoldAnswer,
    "swap": SwapAnswer,
    "progress": ProgressAnswer,
    "contact": ContactAnswer,
}


def ids_of(prompt: Prompt) -> str:
    """Return the pattern of the ids of the fields of a prompt's forms."""
    return f"{prompt.pk}-%s"


def answer_form(prompt: Prompt, seen: str, data: Any = None, prefix: str | None = None, **initial: Any) -> AcceptForm:
    """Return the form of a prompt's kind, filled with what is proposed; several can stand on one page, and with a
    `prefix` each in one form of the page."""
    form = FORMS[prompt.kind](
        data, initial={"seen": seen, **initial}, label_suffix="", auto_id=ids_of(prompt), prefix=prefix
    )
    form.prompt, form.stored = prompt, prompt.proposal
    form.start()
    return form
