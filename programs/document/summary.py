"""A change in words, for the history of a program and for the one who finds that someone else changed it."""

from collections.abc import Callable, Mapping
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from programs.document.edits import Operation
from programs.document.find import Place, find
from programs.document.model import Block, Day, Document, Slot, Week
from programs.document.write import written

Names = Mapping[int, str]
LONGEST = 200


def summarise(operation: Operation, before: Document, after: Document, names: Names) -> str:
    """Say what `operation` did to `before`. `names` are the exercises' names by id."""
    text = WORDS[operation.name](operation.params, before, after, names)
    return text if len(text) <= LONGEST else f"{text[: LONGEST - 1]}…"


def said(place: Place, names: Names) -> str:
    """Return the name of a part, with the place where it stands."""
    match place.node:
        case Block():
            return place.node.name
        case Week() if not place.week_number:
            return _("the base week of %(block)s") % {"block": place.block.name}
        case Week():
            return _("week %(week)s of %(block)s") % {"week": place.week_number, "block": place.block.name}
        case Day():
            name = place.node.name
        case Slot():
            name = f"{names.get(place.node.exercise, _('an exercise'))} ({place.day.name})"
    if not place.week_number:
        return _("%(what)s, base week of %(block)s") % {"what": name, "block": place.block.name}
    return _("%(what)s, week %(week)s of %(block)s") % {
        "what": name,
        "week": place.week_number,
        "block": place.block.name,
    }


def _simple(sentence: str, param: str) -> Callable[..., str]:
    """Make a describer for a change of one part that was there before."""

    def describe(params: Mapping[str, Any], before: Document, after: Document, names: Names) -> str:
        return _(sentence) % {"what": said(find(before, params[param]), names)}

    return describe


def _added_slot(params, before, after, names):
    return _("Added %(exercise)s to %(day)s") % {
        "exercise": names.get(params["exercise"], _("an exercise")),
        "day": said(find(before, params["day"]), names),
    }


def _swapped(params, before, after, names):
    return _("Swapped %(what)s for %(other)s") % {
        "what": said(find(before, params["slot"]), names),
        "other": names.get(params["exercise"], _("an exercise")),
    }


def _renamed(params, before, after, names):
    return _("Renamed %(what)s to %(name)s") % {
        "what": said(find(before, params["key"]), names),
        "name": find(after, params["key"]).node.name,
    }


def _prescribed(params, before, after, names):
    old, new = find(before, params["slot"]), find(after, params["slot"])
    line = written(new.node)
    if line != written(old.node):
        return _("%(what)s: %(old)s became %(new)s") % {
            "what": said(new, names),
            "old": written(old.node),
            "new": line,
        }
    return _("Changed rest, tempo or note of %(what)s") % {"what": said(new, names)}


def _copied(params, before, after, names):
    what = said(find(before, params["key"]), names)
    if params.get("into"):
        return _("Copied %(what)s to %(where)s") % {"what": what, "where": said(find(before, params["into"]), names)}
    return _("Copied %(what)s") % {"what": what}


def _moved(params, before, after, names):
    old, new = find(before, params["slot"]), find(after, params["slot"])
    if old.day.key == new.day.key:
        return _("Moved %(what)s within the day") % {"what": said(old, names)}
    return _("Moved %(what)s to %(day)s") % {"what": said(old, names), "day": new.day.name}


def _deload(params, before, after, names):
    what = said(find(before, params["week"]), names)
    return (_("Marked %(what)s as deload") if params["deload"] else _("Took the deload mark off %(what)s")) % {
        "what": what
    }


def _sides(params, before, after, names):
    words = _("%(what)s: the weaker side first") if params["weaker_first"] else _("%(what)s: the left side first")
    return words % {"what": said(find(before, params["slot"]), names)}


WORDS: dict[str, Callable[..., str]] = {
    "remove": _simple(gettext_noop("Removed %(what)s"), "key"),
    "copy": _copied,
    "rename": _renamed,
    "nudge": _simple(gettext_noop("Moved %(what)s"), "key"),
    "add-block": lambda params, before, after, names: _("Added %(what)s") % {"what": after.blocks[-1].name},
    "add-week": _simple(gettext_noop("Added a week to %(what)s"), "block"),
    "add-day": _simple(gettext_noop("Added a training day to %(what)s"), "week"),
    "mark-deload": _deload,
    "note-week": _simple(gettext_noop("Changed the note of %(what)s"), "week"),
    "add-slot": _added_slot,
    "move-slot": _moved,
    "swap": _swapped,
    "pair": _simple(gettext_noop("Paired %(what)s with the next exercise"), "slot"),
    "unpair": _simple(gettext_noop("Took %(what)s out of its pair"), "slot"),
    "order-sides": _sides,
    "prescribe": _prescribed,
    "ramp": _simple(gettext_noop("Set the ramp of %(what)s"), "block"),
    "ramp-off": _simple(gettext_noop("Took the ramp off %(what)s"), "block"),
    "release": _simple(gettext_noop("Gave %(what)s back to the ramp"), "key"),
}
