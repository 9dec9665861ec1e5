"""A floor and a ceiling for each muscle group, in fields named `floor-<slug>` and `ceiling-<slug>`."""

from collections.abc import Iterable, Mapping
from typing import Any

from django import forms
from django.utils.translation import gettext as _

from programs.models import MuscleGroup


def check_ranges(form: forms.Form, values: Mapping[str, Any], groups: Iterable[MuscleGroup]) -> None:
    """Add an error beside the ceiling where only one end is given, or the two are upside down."""
    for group in groups:
        low, high = f"floor-{group.slug}", f"ceiling-{group.slug}"
        if form.has_error(low) or form.has_error(high):
            continue
        floor, ceiling = values.get(low), values.get(high)
        if (floor is None) != (ceiling is None):
            form.add_error(high, _("Give both ends, or neither."))
        elif floor is not None and ceiling is not None and floor > ceiling:
            form.add_error(high, _("The range runs from the smaller number to the larger one."))
