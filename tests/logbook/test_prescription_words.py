"""A prescription is shown as it was written."""

import pytest

from logbook.wording import prescription_words
from programs.models import PlannedSlot

REPS = {"reps_min": 8, "reps_max": 12, "rir_min": 1, "rir_max": 2}


@pytest.mark.parametrize(("low", "high", "words"), [(None, 3, "3"), (3, 4, "3–4")])
def test_sets_are_shown_as_the_coach_wrote_them(low, high, words):
    # Common practice, no source: 8-12 repetitions at 1-2 RIR for 3-4 sets.
    said = prescription_words({"sets_min": low, "sets": high, **REPS}, {"rep_unit": "reps"})
    assert said == f"{words} × 8–12 @ 1–2 RIR"
    assert PlannedSlot(sets_min=low, sets=high).sets_written == words
