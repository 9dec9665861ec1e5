"""A program as a file."""

from typing import Any

from django.db.models import Prefetch

from programs.document import document_from_json, document_to_json
from programs.exchange.json_write import ABOUT, exercise_ids, write_program
from programs.models import Exercise, HeadCredit, Program
from programs.services.program_own import equipment_reference, own_definition, own_equipment
from programs.sheets.names import OWN, Known


def reference_of(row: Exercise) -> str:
    """Return how files name an exercise."""
    return f"{OWN}{row.slug}" if row.practice_id else row.slug


def known_of(row: Exercise) -> Known:
    return Known(row.pk, reference_of(row), row.name, row.rest_s, row.archived_at is not None)


def program_json(program: Program) -> str:
    """Return a program as the text of a JSON file (a fixed number of queries)."""
    document = document_to_json(document_from_json(program.document))
    credits = HeadCredit.objects.select_related("head", "long_by")
    rows = (
        Exercise.objects.filter(pk__in=exercise_ids(document))
        .select_related("equipment")
        .prefetch_related("actions", "limits", Prefetch("credits", credits))
    )
    # An exercise that is gone keeps its place; whoever reads the file chooses another.
    references = {pk: f"gone-{pk}" for pk in exercise_ids(document)}
    exercises: dict[str, dict[str, Any]] = {reference: {"name": ""} for reference in references.values()}
    equipment = {}
    for row in rows:
        references[row.pk] = reference_of(row)
        exercises[reference_of(row)] = {"name": row.name}
        if row.practice_id:
            exercises[reference_of(row)]["definition"] = own_definition(row)
            if row.equipment.practice_id:
                equipment[equipment_reference(row.equipment)] = own_equipment(row.equipment)
    about = {name: getattr(program, name) for name in ABOUT}
    return write_program(about, document, references, exercises, equipment)
