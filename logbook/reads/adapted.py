"""Why an exercise of the plan differs from the program as written, in words for the client."""

from collections.abc import Sequence

from programs.models import Adaptation, PlannedSession, PlannedSlot
from programs.sentences import in_words
from programs.services.adaptation_lines import Line, about, said


def adapted_words(planned: PlannedSession, slots: Sequence[PlannedSlot], unit: str) -> dict[int, list[str]]:
    """Return sentences by slot id: one query, and two more where the plan was adapted."""
    rows = Adaptation.objects.filter(assignment=planned.assignment_id, undone_at=None).select_related("created_by")
    lines = said(list(rows), unit)
    found = {slot.pk: about(lines, slot.slot_key, slot.exercise_id) for slot in slots} if lines else {}
    return {pk: [_sentence(one) for one in own] for pk, own in found.items() if own}


def _sentence(one: Line) -> str:
    # Beside one exercise there is no need to name all the others that begin carefully.
    why = in_words("fit_careful_slot", {}) if one.row.kind == Adaptation.Kind.CAREFUL else one.why
    return f"{one.what}. {why}"
