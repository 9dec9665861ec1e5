"""Fields that several forms of this room share."""

import zoneinfo
from functools import lru_cache
from itertools import groupby

from django import forms
from django.utils.translation import gettext_lazy as _

from accounts.models import LoadUnit

# The database also knows old names, POSIX rules and single countries; nobody should have to choose among those.
AREAS = ("Africa", "America", "Antarctica", "Arctic", "Asia", "Atlantic", "Australia", "Europe", "Indian", "Pacific")


@lru_cache(maxsize=1)
def zone_choices() -> list[tuple[str, str | list[tuple[str, str]]]]:
    """List time zones by part of the world, each under the city's name, with UTC first."""
    names = sorted(name for name in zoneinfo.available_timezones() if name.split("/")[0] in AREAS and "/" in name)
    grouped = groupby(names, key=lambda name: name.split("/")[0])
    return [("UTC", "UTC")] + [
        (area, [(name, name.split("/", 1)[1].replace("_", " ").replace("/", " / ")) for name in members])
        for area, members in grouped
    ]


class ZoneSelect(forms.Select):
    template_name = "accounts/zone_select.html"


class TimeZoneField(forms.ChoiceField):
    """A time zone by name; `proposes` lets static/accounts/zone.js choose the browser's own while nothing is chosen."""

    def __init__(self, *, proposes: bool = False, **options: object) -> None:
        options.setdefault("label", _("Time zone"))
        options.setdefault("help_text", _("Days and weeks are counted in this zone."))
        super().__init__(choices=zone_choices, widget=ZoneSelect, **options)
        if proposes:
            self.widget.attrs["data-propose-zone"] = ""


class LoadUnitField(forms.ChoiceField):
    """Kilograms or pounds."""

    def __init__(self, **options: object) -> None:
        options.setdefault("label", _("Unit of load"))
        options.setdefault("help_text", _("Loads are shown in this unit. What was typed is kept as it was typed."))
        options.setdefault("widget", forms.RadioSelect)
        super().__init__(choices=LoadUnit.choices, initial=LoadUnit.KG, **options)
