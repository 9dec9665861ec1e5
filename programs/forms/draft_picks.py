"""Exercises that a draft must or must not hold: found by words, ticked, kept."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from programs.services.draft_bounds import LISTED
from programs.services.program_exercises import search_exercises, usable_by
from programs.services.tally_facts import ExerciseFacts, facts_of

LISTS = {
    "include": gettext_lazy("Exercises that must be in the week"),
    "avoid": gettext_lazy("Exercises that must not be in the week"),
}
OFFERED = 8


@dataclass(slots=True)
class Pick:
    """One list: what is ticked, what the search words offer, and what is wrong with it."""

    name: str
    words: str = ""
    chosen: list[ExerciseFacts] = field(default_factory=list)
    offered: list[ExerciseFacts] = field(default_factory=list)
    errors: list[str] = field(default_factory=list)

    @property
    def label(self) -> Any:
        return LISTS[self.name]

    def ids(self) -> tuple[int, ...]:
        return tuple(one.pk for one in self.chosen)


def read_pick(user: Any, name: str, ticked: Iterable[Any], words: str = "") -> Pick:
    """Return a list as posted (three queries, five with words). Ids that the user cannot use are an error."""
    wanted = {int(one) for one in map(str, ticked) if one.isascii() and one.isdigit() and len(one) < 16}
    found = facts_of(usable_by(user).filter(pk__in=wanted)) if wanted else {}
    pick = Pick(name, words.strip()[:80], sorted(found.values(), key=lambda fact: fact.name))
    if wanted - found.keys():
        pick.errors.append(_("An exercise of this list cannot be used any more; it has been taken off."))
    if len(wanted) > LISTED:
        pick.errors.append(_("Name at most %(most)s exercises.") % {"most": LISTED})
    if pick.words:
        others = search_exercises(user, pick.words, OFFERED + len(wanted))
        pick.offered = [one.fact for one in others if one.fact.pk not in found][:OFFERED]
    return pick


def check_picks(picks: Sequence[Pick]) -> None:
    """Add an error where an exercise stands in both lists."""
    include, avoid = picks
    if both := [one.name for one in include.chosen if one.pk in avoid.ids()]:
        avoid.errors.append(_("Stands in both lists: %(names)s.") % {"names": ", ".join(both)})
