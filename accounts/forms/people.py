"""Forms of the pages about oneself, the practice and a client."""

from django import forms
from django.conf import settings
from django.utils.translation import gettext_lazy as _

from accounts import languages
from accounts.forms.fields import LoadUnitField, TimeZoneField
from accounts.models import Client, Membership, Practice, TrainingStatus, User


class ProfileForm(forms.ModelForm):
    time_zone = TimeZoneField()
    load_unit = LoadUnitField()
    language = forms.ChoiceField(label=_("Language"), choices=languages.choices, required=False)
    name = forms.CharField(label=_("Name"), max_length=120, widget=forms.TextInput(attrs={"autocomplete": "name"}))

    class Meta:
        model = User
        fields = ["name", "time_zone", "load_unit", "language", "weekly_letter"]

    def __init__(self, *args: object, **kwargs: object) -> None:
        super().__init__(*args, **kwargs)
        # Nobody is asked to choose among one.
        if len(settings.LANGUAGES) < 2:
            del self.fields["language"]


class PracticeForm(forms.ModelForm):
    time_zone = TimeZoneField(help_text=_("Engagements start and end at midnight in this zone."))

    class Meta:
        model = Practice
        fields = ["name", "time_zone", "require_coach_mfa"]


class PracticeStartForm(forms.Form):
    name = forms.CharField(label=_("Name of the practice"), max_length=120)


class ClientForm(forms.ModelForm):
    training_status = forms.ChoiceField(
        label=_("Training status"),
        choices=TrainingStatus,
        widget=forms.RadioSelect,
        help_text=_("Sets the default volume ranges and how fast loads rise. When in doubt, choose the lower one."),
    )

    class Meta:
        model = Client
        fields = ["training_status"]


class CoachForm(forms.Form):
    """Which coach takes a client over."""

    coach = forms.ModelChoiceField(Membership.objects.none(), label=_("New coach"), widget=forms.RadioSelect)

    def __init__(self, *args: object, coaches: object, **kwargs: object) -> None:
        super().__init__(*args, **kwargs)
        self.fields["coach"].queryset = coaches
        self.fields["coach"].empty_label = None
        self.fields["coach"].label_from_instance = lambda membership: str(membership.user)

    @property
    def has_choice(self) -> bool:
        """Whether there is anybody to choose."""
        return self.fields["coach"].queryset.exists()


class RoleForm(forms.Form):
    role = forms.ChoiceField(label=_("Role"), choices=Membership.Role, widget=forms.RadioSelect)
