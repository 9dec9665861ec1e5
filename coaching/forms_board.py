"""What the week's board is sifted, grouped and kept by."""

from urllib.parse import urlencode

from django import forms
from django.utils.text import capfirst
from django.utils.translation import gettext_lazy as _

from coaching.reads.prompts import KINDS
from coaching.templatetags.coaching import kind_word

GROUPS = [("", _("by urgency alone")), ("block", _("by block")), ("coach", _("by coach"))]
ROWS = [("25", "25"), ("50", "50")]


class BoardFilter(forms.Form):
    """What the rows are sifted by; a value that makes no sense sifts nothing."""

    q = forms.CharField(label=_("Name"), max_length=80, required=False)
    coach = forms.ChoiceField(label=_("Coach"), required=False)
    kind = forms.ChoiceField(label=_("Question"), required=False)
    group = forms.ChoiceField(label=_("Order"), choices=GROUPS, required=False)
    rows = forms.ChoiceField(label=_("Rows a page"), choices=ROWS, required=False)
    attention = forms.BooleanField(label=_("Only those who need attention"), required=False)

    def __init__(self, *args: object, coaches: list[tuple[int, str]], **kwargs: object) -> None:
        super().__init__(*args, **kwargs)
        kinds = [(kind, capfirst(kind_word(kind))) for kind in KINDS]
        self.fields["kind"].choices = [("", _("All")), *kinds]
        if coaches:
            self.fields["coach"].choices = [("", _("All coaches")), *((str(pk), name) for pk, name in coaches)]
        else:
            del self.fields["coach"]
            self.fields["group"].choices = GROUPS[:2]

    def chosen(self) -> dict[str, str]:
        """Return what makes sense of what was asked, by name; what was left empty is left out."""
        self.is_valid()
        return {name: value for name, value in self.cleaned_data.items() if value}

    def sifts(self) -> bool:
        return bool(self.chosen().keys() & {"q", "coach", "kind", "attention"})

    def query(self) -> str:
        """Return what was asked as it stands in an address."""
        return urlencode({name: "on" if value is True else value for name, value in self.chosen().items()})


class ViewForm(forms.Form):
    name = forms.CharField(label=_("Name of this view"), max_length=40)
