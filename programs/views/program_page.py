"""Everything the editor page needs to be drawn, read in a fixed number of queries."""

from collections.abc import Mapping
from typing import Any

from django.http import HttpRequest
from django.utils.dates import WEEKDAYS

from accounts.models.client import TrainingStatus
from programs.document import Document, Week, document_from_json
from programs.document.find import Place, places
from programs.models import Program
from programs.services.assignment_dates import days_a_week, proposed_weekdays
from programs.services.program_undo import steps
from programs.services.tally import tally_week
from programs.services.tally_facts import load_anatomy, load_facts
from programs.services.targets import default_ranges
from programs.views.program_model import Problem, day_views, gap_views


def chosen_week(document: Document, key: str) -> Place | None:
    """Return the place of the week `key`, or of the first week; None when the program has none."""
    weeks = [place for place in places(document) if isinstance(place.node, Week)]
    return next((place for place in weeks if place.node.key == key), weeks[0] if weeks else None)


def outlook(program: Program, document: Document, query: Mapping[str, str]) -> tuple[str, list[int]]:
    """Return the training status and weekdays to judge by: the program's own, or those a reader asks for."""
    status = query.get("written_for", program.written_for)
    if status not in TrainingStatus.values:
        status = program.written_for
    asked = [query.get(f"weekday_{number}", "") for number in range(days_a_week(document))]
    days = [int(one) for one in asked if one in set("0123456")]
    return status, proposed_weekdays(document, days if days and len(days) == len(asked) else program.weekdays)


def editor_context(
    request: HttpRequest, program: Program, can_write: bool, week_key: str = "", problem: Problem | None = None
) -> dict[str, Any]:
    """Return the template's values for one week of the program."""
    document = document_from_json(program.document)
    place = chosen_week(document, week_key)
    status, weekdays = outlook(program, document, {} if can_write else request.GET)
    week = place.node if place else Week("")
    facts = load_facts(slot.exercise for day in week.days for slot in day.slots)
    anatomy = load_anatomy()
    tally = tally_week(week, facts, anatomy, default_ranges(status, anatomy.groups), weekdays)
    return {
        "program": program,
        "can_write": can_write,
        "document": document,
        "place": place,
        "week": week,
        "days": day_views(week, facts, tally, weekdays, problem),
        "tally": tally,
        "gaps": gap_views(week, tally, weekdays, anatomy),
        "steps": steps(program) if can_write else None,
        "statuses": TrainingStatus.choices,
        "status": status,
        # A week with fewer days than the fullest one keeps the weekdays of the others.
        "further_weekdays": list(enumerate(weekdays))[len(week.days) :],
        "weekday_names": [(number, str(name)) for number, name in WEEKDAYS.items()],
        "problem": problem,
        "room": "programs",
    }
