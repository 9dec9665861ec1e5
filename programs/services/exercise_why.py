"""Why one exercise can stand in for another, in a short sentence."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from programs.models import Head

Vector = dict[int, float]
# Over this credit a head is trained rather than helping.
TRAINED = 0.5
MOST_NAMES = 2


@dataclass(frozen=True, slots=True)
class Mix:
    """What a set counts for, by head; and the part of it that is loaded while long."""

    sets: Vector
    long: Vector

    def trained(self) -> set[int]:
        return {head for head, credit in self.sets.items() if credit > TRAINED}


def why_instead(before: Mix, other: Mix, heads: Mapping[int, Head], *, named: bool) -> str:
    """Compare `other` with the exercise it replaces; `heads` holds every head of both."""
    parts = [_("named as a substitute")] if named else []
    wanted, kept = before.trained(), before.trained() & other.trained()
    if wanted and kept == wanted:
        parts.append(_("trains the same muscles as directly"))
    elif kept:
        less = some(wanted - kept, wanted, heads)
        parts.append(
            _("trains %(same)s as directly, %(less)s less") % {"same": some(kept, wanted, heads), "less": less}
        )
    else:
        parts.append(_("trains a similar mix, none of it as directly"))
    parts += _long(before, other, heads)
    return "; ".join(parts)


def _long(before: Mix, other: Mix, heads: Mapping[int, Head]) -> list[str]:
    """Say what becomes of the load at long length."""
    long = set(before.long) & set(other.long)
    gained = set(other.long) & before.trained() - set(before.long)
    if gained and not before.long:
        return [_("also loads %(heads)s while long") % {"heads": some(gained, before.trained(), heads)}]
    if not before.long:
        return []
    if long == set(before.long):
        return [_("loads them while long too")]
    if long:
        return [_("loads only %(heads)s while long") % {"heads": some(long, before.sets, heads)}]
    return [_("without the load at long length")]


def some(chosen: Iterable[int], among: Iterable[int], heads: Mapping[int, Head]) -> str:
    """Name the first heads and count the rest; a group all of whose heads in `among` are chosen is named as one."""
    chosen, among = set(chosen), set(among)
    names: dict[str, None] = {}
    for pk in sorted(chosen, key=lambda pk: heads[pk].position):
        head = heads[pk]
        group = {other for other in among if head.group_id and heads[other].group_id == head.group_id}
        names[head.group.name if group and group <= chosen else head_name(head)] = None
    listed = list(names)
    rest = len(listed) - MOST_NAMES
    if rest <= 0:
        return f" {_('and')} ".join(listed)
    more = ngettext("%(count)d more", "%(count)d more", rest) % {"count": rest}
    return f"{', '.join(listed[:MOST_NAMES])} {_('and')} {more}"


def head_name(head: Head) -> str:
    """Name a head so that it can stand in a list with commas."""
    return head.muscle.name if head.name == head.muscle.name else f"{head.muscle.name} ({head.name})"
