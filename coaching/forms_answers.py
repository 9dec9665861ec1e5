"""What each kind of question lets a coach choose beside yes and no."""

from collections.abc import Mapping
from typing import Any

from django import forms
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from coaching.forms import AcceptForm
from coaching.models import Prompt
from coaching.reads.ways_out import WaysOut, ways_out
from coaching.recompute.prompts import topic_of
from coaching.services.choice import Choice
from programs.models import PlannedSlot

SHARES = [(share, f"{share} %") for share in (40, 50, 60, 70)]


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
    """For what hurts: in the open sessions of these weeks."""

    to_exercise = forms.TypedChoiceField(label=gettext_lazy("Instead"), coerce=int)

    def start(self) -> None:
        field = self.fields["to_exercise"]
        field.choices = self.options(self.way_out())
        if not field.choices:
            field.help_text = _("Nothing like it is open to this client. Change the program, or refuse.")

    def way_out(self) -> WaysOut:
        """What can be done instead: read with those of other questions, where several stand on a page."""
        found = self.ways if self.ways is not None else ways_out([self.prompt])
        return found.get(str(self.prompt.pk), WaysOut())

    def options(self, found: WaysOut) -> list[Any]:
        return list(found.others)

    def choice(self) -> Choice:
        return Choice(to_exercise=self.cleaned_data["to_exercise"])


# Among the exercises to choose from: none of them, but a smaller range.
STAY = 0


class VariantAnswer(SwapAnswer):
    """For what no load fits any more: from now on, unless the coach says for these weeks only."""

    onward = forms.BooleanField(
        label=gettext_lazy("Also in the sessions after these, to the end of the plan"), required=False
    )

    def start(self) -> None:
        super().start()
        self.initial |= {"onward": True}

    def options(self, found: WaysOut) -> list[Any]:
        easier = self.stored["cause"] == "easier"
        named = _("Easier variants of the library") if easier else _("Harder variants of the library")
        options: list[Any] = [(named, list(found.variants))] if found.variants else []
        if smaller := next((one for one in self.stored["slots"] if "smaller" in one), None):
            low, high = smaller["smaller"]
            options.append((STAY, _("Stay, with a range of %(low)s to %(high)s") % {"low": low, "high": high}))
        if found.others:
            options.append((_("Others that train nearly the same"), list(found.others)))
        return options

    def choice(self) -> Choice:
        chosen = self.cleaned_data["to_exercise"]
        smaller = chosen == STAY
        return Choice(to_exercise=None if smaller else chosen, smaller=smaller, onward=self.cleaned_data["onward"])


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
    "variant": VariantAnswer,
}


def ids_of(prompt: Prompt) -> str:
    """Return the pattern of the ids of the fields of a prompt's forms."""
    return f"{prompt.pk}-%s"


def answer_form(
    prompt: Prompt,
    seen: str,
    data: Any = None,
    prefix: str | None = None,
    ways: Mapping[str, WaysOut] | None = None,
    **initial: Any,
) -> AcceptForm:
    """Return the form of a prompt's topic, filled with what is proposed; several can stand on one page, and with a
    `prefix` each in one form of the page. `ways`: what `ways_out` found for all of them."""
    form = FORMS[topic_of(prompt.kind, prompt.proposal)](
        data, initial={"seen": seen, **initial}, label_suffix="", auto_id=ids_of(prompt), prefix=prefix
    )
    form.prompt, form.stored, form.ways = prompt, prompt.proposal, ways
    form.start()
    return form
