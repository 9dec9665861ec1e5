"""The tables to start from."""

from django.utils.translation import gettext as _

from accounts.models import Practice
from logbook.past.columns import BY_KEY
from programs.models import Laterality, LoadKind, RepUnit
from programs.services.exercise_visible import exercises_of
from programs.sheets.write import WRITERS


def template_past(practice: Practice | None, layout: str, kind: str) -> bytes:
    """Return a table of `layout` as "csv" or "xlsx", with exercises that this practice has (one query)."""
    rows = _sets(practice) if layout == "sets" else _days()
    return WRITERS[kind](BY_KEY[layout], rows)


def _sets(practice: Practice | None) -> list[list[str]]:
    plain = exercises_of(practice).filter(
        laterality=Laterality.BOTH, load_kind=LoadKind.EXTERNAL, rep_unit=RepUnit.REPS
    )
    names = [*plain.order_by("name").values_list("name", flat=True)[:2]]
    names += [_("Exercise %(number)s") % {"number": number} for number in range(len(names) + 1, 3)]
    first, second = names
    return [
        ["2024-01-08", "", first, "1", "yes", "", "20", "kg", "10", "", "", "", "", ""],
        ["", "", "", "1", "", "", "40", "kg", "10", "2", "One row is one set.", "7", "60", "Slept well."],
        ["", "", "", "2", "", "", "40", "kg", "9", "1", "Empty: as in the row above.", "", "", ""],
        ["", "", second, "1", "", "", "27.5", "kg", "12", "2", "", "", "", ""],
        ["2024-01-10", "", first, "1", "", "", "42.5", "kg", "8", "1.5", "", "8", "55", ""],
    ]


def _days() -> list[list[str]]:
    return [
        ["2024-01-08", "3", "4", "3", "4", "4", "71.5", "kg", "1 is worst, 5 is best."],
        ["2024-01-09", "", "", "", "", "", "71.2", "kg", "Body mass alone."],
    ]
