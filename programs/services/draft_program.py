"""Make an ordinary program of a drafted week: from here on it is the coach's."""

from collections.abc import Mapping
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from accounts.models import User
from programs.document import Document, document_to_json
from programs.document.keys import random_key
from programs.document.model import Block, Day, Slot, Week
from programs.models import DraftRun, Exercise, Program
from programs.services.program_write import program_create


class ExerciseGone(Exception):
    """An exercise of the draft does not exist any more."""


@transaction.atomic
def draft_make_program(*, run: DraftRun, author: User) -> Program:
    """Return the program of a finished draft, made now or before; ExerciseGone when it cannot be made."""
    run = DraftRun.objects.select_for_update().get(pk=run.pk)
    if run.state != DraftRun.State.DONE:
        raise ValueError("only a finished draft becomes a program")
    if run.program is not None:
        return run.program
    document = document_of(run)
    used = {slot.exercise for day in document.blocks[0].weeks[0].days for slot in day.slots}
    if Exercise.objects.filter(pk__in=used).count() < len(used):
        raise ExerciseGone
    run.program = program_create(
        practice=run.practice,
        author=author,
        name=run.name,
        document=document_to_json(document),
        written_for=run.ask["status"],
        weekdays=[day["weekday"] for day in run.result["days"]],
        # The tally beside the editor judges by what was asked for, until the coach says otherwise.
        session_minutes=max(day["minutes"] for day in run.ask["days"]),
        asked_ranges=asked_ranges_of(run.ask),
        judge_by_asked=True,
    )
    run.save(update_fields=["program"])
    return run.program


def asked_ranges_of(ask: Mapping[str, Any]) -> dict[str, list[Any]]:
    """Return the ranges and priorities that a draft was asked for, as a program keeps them."""
    return {slug: [one["floor"], one["ceiling"], one["priority"]] for slug, one in ask["targets"].items()}


def document_of(run: DraftRun) -> Document:
    """Return the drafted week as a program of one block of one week."""
    days = tuple(
        Day(
            random_key(),
            _("Day %(number)s") % {"number": number},
            tuple(
                Slot(
                    key=random_key(),
                    exercise=slot["exercise"],
                    pair=slot["pair"],
                    sets=(slot["sets"], slot["sets"]),
                    reps=(slot["reps"][0], slot["reps"][1]),
                    rir=(slot["rir"][0], slot["rir"][1]),
                    rest_s=slot["rest_s"],
                )
                for slot in day["slots"]
            ),
        )
        for number, day in enumerate(run.result["days"], 1)
    )
    return Document((Block(random_key(), _("Block %(number)s") % {"number": 1}, (Week(random_key(), days=days),)),))
