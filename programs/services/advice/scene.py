"""Try a change in a week and say what it does."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from itertools import count
from math import inf
from typing import Any, TypeVar

from django.template.defaultfilters import floatformat
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from periodization.duration import whole_minutes
from programs.document import EditError, Slot, Week
from programs.document.edits import Operation, apply_to_week
from programs.services.advice.model import Remedy
from programs.services.tally_facts import ExerciseFacts
from programs.services.week_difference import Difference, week_difference
from programs.services.week_sums import Shares, WeekSums, shares_of, week_sums
from programs.services.week_view import WeekDesk

Try = TypeVar("Try", bound=tuple[Any, ...])
# How many groups an effect names; the rest is counted.
NAMED = 3


@dataclass
class Scene:
    """A week's desk with the exercises that are not in it yet."""

    desk: WeekDesk
    library: Mapping[int, ExerciseFacts]  # what can be proposed, best first
    facts: dict[int, ExerciseFacts] = field(default_factory=dict)
    shares: dict[int, Shares] = field(default_factory=dict)
    tried: dict[str, tuple[Week, WeekSums] | None] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.facts = {**self.library, **self.desk.facts}
        self.shares = {**shares_of(self.library.values(), self.desk.anatomy), **self.desk.shares}
        self.trouble = self.troubles(self.desk.sums)

    def name(self, slot: Slot) -> str:
        return self.facts[slot.exercise].name if slot.exercise in self.facts else _("an exercise")

    def share(self, slot: Slot, group: str) -> float:
        return self.shares[slot.exercise].groups.get(group, 0) if slot.exercise in self.shares else 0

    def leads(self, slot: Slot, group: str) -> bool:
        """Say whether the exercise gives the group as much as it gives any."""
        groups = self.shares[slot.exercise].groups if slot.exercise in self.shares else {}
        return bool(groups) and groups.get(group, 0) == max(groups.values())

    def after(self, operation: Operation) -> tuple[Week, WeekSums] | None:
        """Return the week and its sums after a change; None when it cannot be made."""
        name = as_do(operation)
        if name not in self.tried:
            self.tried[name] = self._after(operation)
        return self.tried[name]

    def _after(self, operation: Operation) -> tuple[Week, WeekSums] | None:
        keys = count()
        try:
            week = apply_to_week(self.desk.week, operation, lambda: f"try-{next(keys)}")
        except EditError:
            return None
        now = self.desk.week, self.desk.sums
        return week, week_sums(week, self.facts, self.shares, self.desk.weekdays, now)

    def troubles(self, sums: WeekSums) -> dict[str, float]:
        """Return what lies outside its bounds and by how much: what a remedy must not add to."""
        found = {f"gap {group} {first} {second}": 1.0 for group, first, second, _hours in sums.gaps}
        for group, target in self.desk.targets.items():
            amount = sums.groups.get(group, 0)
            if amount > target.ceiling:
                found[f"over {group}"] = amount - target.ceiling
            elif 0 < amount < target.floor:
                found[f"under {group}"] = target.floor - amount
        for key, minutes in sums.minutes.items():
            if whole_minutes(minutes) > self.desk.minutes:
                found[f"minutes {key}"] = (minutes - self.desk.minutes) / 10
        return found

    def harm(self, sums: WeekSums) -> float:
        """Return how much worse than now the sums are, over all that is out of bounds."""
        after = self.troubles(sums)
        new = sum(1 for name in after if name not in self.trouble)
        return new + sum(max(0.0, amount - self.trouble.get(name, amount)) for name, amount in after.items())

    def gentlest(self, tries: Iterable[Try]) -> Try | None:
        """Return the first of the tries that does the least harm, each a tuple that ends in the sums after it; None
        without any. Where one does no harm, those after it are not worked out."""
        best, least = None, inf
        for one in tries:
            harm = round(self.harm(one[-1]), 6)
            if harm < least:
                best, least = one, harm
            if not least:
                break
        return best

    def best(self, options: Iterable[Operation]) -> tuple[Operation, Week, WeekSums] | None:
        """Return the first of the options that do the least harm; None when none can be done."""
        return self.gentlest((option, *made) for option in options if (made := self.after(option)))

    def remedy(self, label: str, made: tuple[Operation, Week, WeekSums], first: str = "") -> Remedy:
        operation, week, sums = made
        difference = week_difference((self.desk.week, week), (self.desk.sums, sums), self.desk.anatomy)
        return Remedy(as_do(operation), label, effect_words(difference, first))


def as_do(operation: Operation) -> str:
    """Write an operation as the value of a button."""
    return ";".join([operation.name, *(f"{name}={value}" for name, value in operation.params.items())])


def effect_words(difference: Difference, first: str = "") -> str:
    """Say what differs, the group `first` before the others: `triceps 9 → 10 sets; Push 52 → 55 min`."""
    groups = [one for one in difference.changes if one.kind == "group"]
    groups.sort(key=lambda one: (one.slug != first, -abs(one.after - one.before)))
    parts = [
        _("%(name)s %(before)s → %(after)s sets")
        % {"name": one.name, "before": number(one.before), "after": number(one.after)}
        for one in groups[:NAMED]
    ]
    if len(groups) > NAMED:
        more = len(groups) - NAMED
        parts.append(ngettext("%(count)s more group", "%(count)s more groups", more) % {"count": more})
    parts += [
        _("%(name)s %(before)s → %(after)s min")
        % {"name": one.name, "before": whole_minutes(one.before), "after": whole_minutes(one.after)}
        for one in difference.changes
        if one.kind == "minutes"
    ]
    if difference.gaps_gone:
        parts.append(_("48 h kept for %(names)s") % {"names": ", ".join(difference.gaps_gone)})
    if difference.gaps_new:
        parts.append(_("but under 48 h for %(names)s") % {"names": ", ".join(difference.gaps_new)})
    return "; ".join(parts) or _("The sums stay the same")


def number(value: float) -> str:
    """Write sets with a decimal at most."""
    return str(floatformat(value))
