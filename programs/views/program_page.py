"""Everything the editor page needs to be drawn, read in a fixed number of queries."""

from collections.abc import Mapping
from functools import partial
from typing import Any

from django.http import HttpRequest
from django.utils.dates import WEEKDAYS
from django.utils.translation import gettext as _

from accounts.models.client import TrainingStatus
from programs.document import Document, Week, document_from_json
from programs.document.find import Place, week_places
from programs.models import Program
from programs.services.advice import advise
from programs.services.assignment_dates import days_a_week, proposed_weekdays
from programs.services.program_undo import steps
from programs.services.revision_load import followed_versions
from programs.services.targets import ASKED, PRIORITIES, judged_by, program_ranges
from programs.services.trial import trial_of
from programs.services.week_balance import balance_of
from programs.services.week_view import desk_of, difference_to, weeks_by_key
from programs.views.program_model import Problem, day_views


def chosen_week(document: Document, key: str) -> Place | None:
    """Return the place of the week `key`, or of the first week; None when the program has none."""
    weeks = list(week_places(document))
    return next((place for place in weeks if place.node.key == key), weeks[0] if weeks else None)


def outlook(program: Program, document: Document, query: Mapping[str, str]) -> tuple[str, list[int]]:
    """Return what to judge by (a training status, or ASKED) and the weekdays: the program's own, or those a reader asks
    for."""
    status = query.get("written_for", "")
    if status not in TrainingStatus.values and not (status == ASKED and program.asked_ranges):
        status = judged_by(program)
    asked = [query.get(f"weekday_{number}", "") for number in range(days_a_week(document))]
    days = [int(one) for one in asked if one in set("0123456")]
    return status, proposed_weekdays(document, days if days and len(days) == len(asked) else program.weekdays)


def outlooks(program: Program) -> list[tuple[str, str]]:
    """Return what the tally can be judged by, in words: the training statuses, and what a draft was asked for."""
    statuses = [(value, str(label)) for value, label in TrainingStatus.choices]
    return [(ASKED, _("as asked of the draft")), *statuses] if program.asked_ranges else statuses


def asked_first(program: Program, groups: Mapping[str, str]) -> list[tuple[str, str]]:
    """Return the muscle groups that a draft was asked to weigh otherwise than normal, by priority, in words."""
    names: dict[str, list[str]] = {}
    for slug, (_floor, _ceiling, priority) in program.asked_ranges.items():
        if priority != "normal" and slug in groups:
            names.setdefault(priority, []).append(groups[slug])
    return [(str(label), ", ".join(names[value])) for value, label in reversed(PRIORITIES) if value in names]


def editor_context(
    request: HttpRequest,
    program: Program,
    can_write: bool,
    week_key: str = "",
    problem: Problem | None = None,
    document: Document | None = None,
) -> dict[str, Any]:
    """Return the template's values for one week of the program; `document` is given when it has been read already."""
    trial = trial_of(program, request.user) if can_write else None
    document = document or document_from_json(trial.document if trial else program.document)
    place = chosen_week(document, week_key)
    status, weekdays = outlook(program, document, {} if can_write else request.GET)
    week = place.node if place else Week("")
    kept = weeks_by_key(document_from_json(program.document)) if trial else {}
    others = [kept[week.key][2]] if week.key in kept else []
    ranges = partial(program_ranges, program, status)
    desk = desk_of(week, others, ranges, weekdays, program.session_minutes)
    advice = advise(desk, request.user)
    now = steps(program) if can_write and not trial else None
    return {
        "program": program,
        "can_write": can_write,
        "document": document,
        "place": place,
        "week": week,
        "days": day_views(desk, problem),
        "tally": desk.tally,
        "advice": advice,
        "too_close": any(one.code == "gap" for one in advice),
        "balance": balance_of(desk),
        "trial": trial,
        "difference": difference_to(desk, others[0] if others else Week("")) if trial else None,
        "also": also_different(document, kept, week.key) if trial else [],
        "can_undo": trial.undo if trial else now is not None and now.undo is not None,
        "can_redo": trial.redo if trial else now is not None and now.redo is not None,
        "statuses": outlooks(program),
        "status": status,
        "asked": asked_first(program, desk.anatomy.groups) if status == ASKED else None,
        # A week with fewer days than the fullest one keeps the weekdays of the others.
        "further_weekdays": list(enumerate(weekdays))[len(week.days) :],
        "weekday_names": [(number, str(name)) for number, name in WEEKDAYS.items()],
        "problem": problem,
        "followed": [one for one in followed_versions(request.user, program) if one[0] < program.version],
        "room": "programs",
    }


def also_different(document: Document, kept: Mapping[str, tuple[str, int, Week]], shown: str) -> list[str]:
    """Name the weeks besides the shown one that differ from those kept."""
    tried = weeks_by_key(document)
    result = []
    for key, (block, number, week) in {**kept, **tried}.items():
        before = kept.get(key)
        if key == shown or (before and key in tried and before[2] == week):
            continue
        words = (_("%(block)s, week %(week)s") if number else _("%(block)s, base week")) % {
            "block": block,
            "week": number,
        }
        if key not in tried:
            words = _("%(week)s (gone)") % {"week": words}
        elif before is None:
            words = _("%(week)s (new)") % {"week": words}
        result.append(words)
    return result
