"""What one version of a week amounts to beside another: only what differs."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from programs.document import Week
from programs.services.tally_facts import Anatomy
from programs.services.week_sums import WeekSums

# Sums of shares such as 0.1 differ in their last digits by the order in which they were added.
SMALL = 0.005


@dataclass(frozen=True, slots=True)
class Change:
    """`kind` is group, minutes or sets (of a day); `slug` is a group's."""

    kind: str
    slug: str
    name: str
    before: float
    after: float


@dataclass(frozen=True, slots=True)
class Difference:
    """`gaps_gone` and `gaps_new` name the groups of which two days lay, or now lie, too close together."""

    changes: Sequence[Change]
    gaps_gone: Sequence[str]
    gaps_new: Sequence[str]


def week_difference(weeks: tuple[Week, Week], sums: tuple[WeekSums, WeekSums], anatomy: Anatomy) -> Difference:
    """Compare (before, after). Days are matched by key, so that a new day counts from nothing."""
    before, after = sums
    changes = [
        Change("group", slug, name, before.groups.get(slug, 0), after.groups.get(slug, 0))
        for slug, name in anatomy.groups.items()
    ]
    names = {day.key: day.name for week in weeks for day in week.days}
    changes += _by_day("sets", names, before.sets, after.sets)
    changes += _by_day("minutes", names, before.minutes, after.minutes)
    gaps_before, gaps_after = set(before.gaps), set(after.gaps)
    return Difference(
        [one for one in changes if abs(one.after - one.before) > (0.5 if one.kind == "minutes" else SMALL)],
        sorted({anatomy.groups[gap[0]] for gap in gaps_before - gaps_after}),
        sorted({anatomy.groups[gap[0]] for gap in gaps_after - gaps_before}),
    )


def _by_day(
    kind: str, names: Mapping[str, str], before: Mapping[str, float], after: Mapping[str, float]
) -> list[Change]:
    return [Change(kind, "", name, before.get(key, 0), after.get(key, 0)) for key, name in names.items()]
