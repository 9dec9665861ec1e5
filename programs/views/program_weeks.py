"""The weeks of a block side by side, and the ramp they come from."""

from typing import Any

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from accounts.access import access_read
from programs.document import Block, Document, document_from_json
from programs.document.find import places
from programs.models import Program
from programs.services.tally_facts import load_anatomy, load_facts
from programs.services.targets import ASKED, program_ranges
from programs.services.trial import trial_of
from programs.services.weeks_table import weeks_table
from programs.views.program_model import Problem
from programs.views.program_page import outlook, outlooks
from programs.views.ramp_form import ramp_form


@login_required
@require_GET
def program_weeks(request: HttpRequest, program_id: int) -> HttpResponse:
    """Show the weeks of one block."""
    program = access_read(Program.objects.select_related("author"), request.user, pk=program_id)
    can_write = Program.objects.writable_by(request.user).filter(pk=program.pk).exists() and not program.archived_at
    return render(
        request, "programs/program_weeks.html", weeks_context(request, program, can_write, request.GET.get("block", ""))
    )


def weeks_context(
    request: HttpRequest, program: Program, can_write: bool, key: str, problem: Problem | None = None
) -> dict[str, Any]:
    """Return the template's values for the block `key`, or the one that holds the week `key`, else the first."""
    trial = trial_of(program, request.user) if can_write else None
    document = document_from_json(trial.document if trial else program.document)
    block = _block(document, key)
    status, weekdays = outlook(program, document, {})
    weeks = (*block.weeks, *([block.ramp.base] if block.ramp else []))
    facts = load_facts(slot.exercise for week in weeks for day in week.days for slot in day.slots)
    anatomy = load_anatomy()
    return {
        "program": program,
        "can_write": can_write,
        "document": document,
        # Not "block": that name is the template language's own inside a block.
        "chosen": block,
        "table": weeks_table(block, facts, anatomy, program_ranges(program, status, anatomy.groups), weekdays),
        "form": ramp_form(block, facts, anatomy, problem) if can_write and block.weeks else None,
        "status": dict(outlooks(program))[status],
        "asked": status == ASKED,
        "problem": problem,
        "trial": trial,
        "room": "programs",
    }


def _block(document: Document, key: str) -> Block:
    found = (place.block for place in places(document) if place.node.key == key)
    # What was read in from a file may hold no block.
    return next(found, document.blocks[0] if document.blocks else Block("", ""))
