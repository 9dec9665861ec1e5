"""All advice on a week, most urgent first."""

from typing import Any

from programs.services.advice.gaps import too_close
from programs.services.advice.heads import never_long, uncovered
from programs.services.advice.library import proposable
from programs.services.advice.minutes import too_long
from programs.services.advice.model import Advice
from programs.services.advice.scene import Scene
from programs.services.advice.volume import over_ceiling, under_floor
from programs.services.week_view import WeekDesk

FINDERS = (too_close, over_ceiling, too_long, under_floor, uncovered, never_long)


def advise(desk: WeekDesk, user: Any) -> list[Advice]:
    """Return the advice on a week (two queries): nothing is changed, each remedy is a change the editor can make."""
    groups = [group for group, sets in desk.sums.groups.items() if sets]
    there = [slot.exercise for day in desk.week.days for slot in day.slots]
    scene = Scene(desk, proposable(user, groups, there, desk.facts))
    return [one for find in FINDERS for one in find(scene)]
