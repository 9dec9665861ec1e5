"""Ask of every head over two joints that is called long: does the other joint put it there?"""

from collections.abc import Iterable

from django import forms
from django.utils.translation import gettext as _

from programs.models import Head, JointAction
from programs.services.library_long import long_is_sound, long_positions, needs_position


def long_holds(rows: Iterable[forms.Form], trained: Iterable[JointAction]) -> bool:
    """Check the rows of credits against the joint actions of the exercise; say beside the row what does not hold."""
    called_long = [row for row in rows if row.cleaned_data.get("head") and row.cleaned_data.get("loaded_long")]
    if not called_long:
        return True
    heads = {head.pk: head for head in Head.objects.prefetch_related("actions")}
    actions = {action.pk: action for action in JointAction.objects.all()}
    moved = {action.slug for action in trained}
    holds = True
    for row in called_long:
        values = row.cleaned_data
        own = {action.slug for action in heads[values["head"]].actions.all()}
        position = actions.get(values.get("long_by"))
        if not needs_position(own):
            values["long_by"] = None
        elif not long_is_sound(own, moved, position.slug if position else None):
            row.add_error("long_by", _refusal(own, moved, actions.values()))
            holds = False
    return holds


def _refusal(own: set[str], moved: set[str], actions: Iterable[JointAction]) -> str:
    positions = long_positions(own, moved)
    if not own & moved:
        return _("This muscle moves none of the joint actions chosen above.")
    if not positions:
        return _("The exercise works this muscle at each of its joints, so none of them holds it long.")
    names = sorted(f"{action.joint} {action.name}" for action in actions if action.slug in positions)
    return _("This muscle crosses two joints. Here it is long only with: %(positions)s.") % {
        "positions": (" " + _("or") + " ").join(names)
    }
