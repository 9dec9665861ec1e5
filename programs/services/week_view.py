"""Everything the editor says of one week: read once, added up once."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from periodization.targets import TargetRange
from programs.document import Document, Week
from programs.document.find import week_places
from programs.services.tally import WeekTally, tally_week
from programs.services.tally_facts import Anatomy, ExerciseFacts, load_anatomy, load_facts
from programs.services.week_difference import Difference, week_difference
from programs.services.week_sums import Shares, WeekSums, shares_of, week_sums


@dataclass(frozen=True, slots=True)
class WeekDesk:
    """A week with all that is needed to judge it and to try changes in it. `minutes`: what a session may take."""

    week: Week
    facts: Mapping[int, ExerciseFacts]
    anatomy: Anatomy
    targets: Mapping[str, TargetRange]
    weekdays: Sequence[int]
    minutes: int
    shares: Mapping[int, Shares]
    sums: WeekSums
    tally: WeekTally


def desk_of(
    week: Week,
    others: Sequence[Week],
    ranges: Callable[[Iterable[str]], Mapping[str, TargetRange]],
    weekdays: Sequence[int],
    minutes: int,
) -> WeekDesk:
    """Read what a week needs (four queries); `others` are weeks whose exercises are needed too, `ranges` gives those
    that groups are judged by."""
    facts = load_facts(slot.exercise for one in (week, *others) for day in one.days for slot in day.slots)
    anatomy = load_anatomy()
    targets = ranges(anatomy.groups)
    shares = shares_of(facts.values(), anatomy)
    sums = week_sums(week, facts, shares, weekdays)
    tally = tally_week(week, facts, anatomy, targets, weekdays)
    return WeekDesk(week, facts, anatomy, targets, weekdays, minutes, shares, sums, tally)


def difference_to(desk: WeekDesk, kept: Week) -> Difference:
    """Compare the week that is tried with the one that is kept."""
    before = week_sums(kept, desk.facts, desk.shares, desk.weekdays)
    return week_difference((kept, desk.week), (before, desk.sums), desk.anatomy)


def weeks_by_key(document: Document) -> dict[str, tuple[str, int, Week]]:
    """Return (block's name, number, week) of each week; the number of a base week is 0."""
    return {place.node.key: (place.block.name, place.week_number, place.node) for place in week_places(document)}
