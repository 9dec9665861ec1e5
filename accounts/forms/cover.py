"""Who stands in for whom, and who takes clients over."""

from typing import Any

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext_lazy as _

from accounts.models import Client, Cover, Membership


class CoverForm(forms.ModelForm):
    """The days and the two coaches; `away` is left out where a coach speaks of themselves."""

    class Meta:
        model = Cover
        fields = ["away", "by", "starts_on", "ends_on"]
        labels = {"away": _("Who is away"), "by": _("Who stands in")}
        widgets = {name: forms.DateInput(attrs={"type": "date"}) for name in ("starts_on", "ends_on")}

    def __init__(self, *args: Any, coaches: QuerySet[Membership], own: Membership | None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name in ("away", "by"):
            self.fields[name].queryset = coaches
            self.fields[name].empty_label = _("Choose")
            self.fields[name].label_from_instance = lambda membership: str(membership.user)
        if own:
            del self.fields["away"]
            self.fields["by"].queryset = coaches.exclude(pk=own.pk)

    @property
    def has_choice(self) -> bool:
        """Whether anybody is there to stand in: someone else than the one coach, or a second one."""
        return self.fields["by"].queryset.count() > ("away" in self.fields)

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        if values.get("away") and values["away"] == values.get("by"):
            self.add_error("by", _("Nobody can stand in for themselves."))
        return values

    def _get_validation_exclusions(self) -> set[str]:
        # The service checks the days and the people, and says it in words.
        return {field.name for field in Cover._meta.fields}


class HandOverForm(forms.Form):
    """Which of a coach's clients go to whom."""

    clients = forms.ModelMultipleChoiceField(
        Client.objects.none(),
        label=_("Clients"),
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": _("Choose at least one client.")},
    )
    coach = forms.ModelChoiceField(Membership.objects.none(), label=_("New coach"), widget=forms.RadioSelect)

    def __init__(self, *args: Any, clients: QuerySet[Client], coaches: QuerySet[Membership], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["clients"].queryset = clients
        self.fields["coach"].queryset = coaches
        self.fields["coach"].empty_label = None
        self.fields["coach"].label_from_instance = lambda membership: str(membership.user)

    @property
    def has_choice(self) -> bool:
        """Whether there is anybody to hand over to."""
        return self.fields["coach"].queryset.exists()
