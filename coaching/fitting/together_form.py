"""What a coach says to a group of equal proposals: what is done, and for whom."""

from collections.abc import Mapping
from typing import Any

from django import forms
from django.utils.translation import gettext as _

from coaching.fitting.forms import LABELS, named
from coaching.fitting.together import Member, Together
from programs.fit.model import ExerciseFit

Said = dict[str, Any]


class TogetherForm(forms.Form):
    """`what` is an exercise's id, 0 for leaving it out, "yes" or "no"; `client` are those whom it is for: the others
    keep what they have."""

    def __init__(self, *args: Any, group: Together, exercises: Mapping[int, ExerciseFit], **kwargs: Any) -> None:
        super().__init__(*args, label_suffix="", auto_id=f"{group.key}-%s", **kwargs)
        self.group = group
        said = group.one.proposal
        self.fields["what"] = forms.ChoiceField(
            label=_("What is done"), choices=_choices(group, exercises), initial=_initial(group)
        )
        if said.number is not None and said.bounds is not None and group.one.family != "start":
            self.fields["number"] = forms.IntegerField(
                label=LABELS[said.change.kind],
                min_value=int(said.bounds[0]),
                max_value=int(said.bounds[1]),
                initial=int(said.number),
            )
        people = [(one.row.client.pk, str(one.row.client)) for one in group.members]
        self.fields["client"] = forms.TypedMultipleChoiceField(
            label=_("For"), choices=people, coerce=int, initial=[pk for pk, _name in people]
        )
        self.fields["client"].error_messages |= {
            "required": _("Choose at least one client."),
            "invalid_choice": _(
                "Something else is proposed to one of them meanwhile. Look at who is left, and keep it again."
            ),
        }

    def whats(self) -> list[tuple[str, str, bool]]:
        """Return what can be done, in words, with what is chosen."""
        chosen = str(self["what"].value())
        return [(value, words, value == chosen) for value, words in self.fields["what"].choices]

    def people(self) -> list[tuple[int, str, bool]]:
        """Return the clients, with those whom it is for ticked."""
        ticked = {str(pk) for pk in self["client"].value() or ()}
        return [(pk, name, str(pk) in ticked) for pk, name in self.fields["client"].choices]

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        what = values.get("what", "")
        if what.isdecimal() and int(what):
            shut = [str(one.row.client) for one in self.chosen(values) if int(what) not in one.open_to]
            if shut:
                words = _("Not open to %(names)s. Take them off, or choose another.") % {"names": ", ".join(shut)}
                self.add_error("what", words)
        return values

    def chosen(self, values: Mapping[str, Any]) -> list[Member]:
        wanted = set(values.get("client", ()))
        return [one for one in self.group.members if one.row.client.pk in wanted]

    def choices(self, before: Mapping[str, Mapping[str, Said]]) -> dict[int, dict[str, Said]]:
        """Return, by client and proposal, what departs from what is proposed (empty: nothing does); `before` is what
        was kept until now, as a fitting holds it."""
        found: dict[int, dict[str, Said]] = {}
        for member in self.chosen(self.cleaned_data):
            pk = member.row.client.pk
            kept = before.get(str(pk), {})
            found[pk] = {one.proposal.id: self._said(kept.get(one.proposal.id, {})) for one in member.differences}
        return found

    def _said(self, kept: Mapping[str, Any]) -> Said:
        what = self.cleaned_data["what"]
        said = {name: value for name, value in kept.items() if name != "accept"}
        if what == "no":
            return {**said, "accept": False}
        if what != "yes":
            said["to"] = int(what)
        if "number" in self.fields:
            number = self.cleaned_data["number"]
            if number != self.fields["number"].initial or "number" in said:
                said["number"] = float(number)
        return said


def _initial(group: Together) -> str:
    one = group.one.proposal
    if not one.accepted:
        return "no"
    return str(one.change.to or 0) if group.one.family == "swap" else "yes"


def _choices(group: Together, exercises: Mapping[int, ExerciseFit]) -> list[tuple[str, str]]:
    one, everyone = group.one, len(group.members)
    no = [] if one.proposal.required else [("no", _("leave it as written"))]
    if one.family != "swap":
        return [("yes", _("do it")), *no]
    found = []
    for option, count in group.options:
        words = named(option, exercises)
        if count < everyone:
            words = _("%(name)s: open to %(n)s of %(all)s") % {"name": words, "n": count, "all": everyone}
        found.append((str(option.exercise), words))
    return [*found, ("0", _("leave it out")), *no]
