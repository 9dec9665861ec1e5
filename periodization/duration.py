"""How long a planned session takes."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from math import floor

from periodization.rules import Rule

RULE = Rule("duration.session", 2, "time model chosen; direction checked against Burke et al. 2024")
# Chosen: walking from A1 to A2 and back.
CHANGEOVER_SECONDS = 15.0
# Chosen: getting warm before the first exercise. Warm-up sets of an exercise belong to its set-up.
WARM_UP_MINUTES = 5.0


@dataclass(frozen=True, slots=True)
class SlotTime:
    """What takes time in a slot. `tempo_seconds` is for one repetition; `rest_seconds` lies between two sets of the
    SAME exercise; `change_seconds` is the set-up. Slots with the same `pair` letter are done in alternation."""

    sets: int
    reps: float
    tempo_seconds: float
    rest_seconds: float
    pair: str | None = None
    one_sided: bool = False
    change_seconds: float = 60.0


def session_minutes(slots: Sequence[SlotTime], warm_up_minutes: float = WARM_UP_MINUTES) -> float:
    """Estimate the minutes of a session, from the warm-up to the last repetition; one without a set takes none.

    A partner's set is done inside the rest of a paired set, so pairing saves time until the work alone fills the
    rest. Between two exercises, resting and setting up happen together: the longer counts.
    """
    blocks: dict[object, list[SlotTime]] = defaultdict(list)
    for place, slot in enumerate(slots):
        if slot.sets > 0:
            blocks[slot.pair or place].append(slot)
    seconds = warm_up_minutes * 60 if blocks else 0.0
    rest_before = 0.0
    for members in blocks.values():
        seconds += max(rest_before, sum(m.change_seconds for m in members)) + _block_seconds(members)
        rest_before = max(m.rest_seconds for m in members)
    return seconds / 60


def whole_minutes(minutes: float) -> int:
    """Round for showing: halves go up, wherever it is shown."""
    return floor(minutes + 0.5)


def _work(slot: SlotTime) -> float:
    return slot.reps * slot.tempo_seconds * (2 if slot.one_sided else 1)


def _block_seconds(members: list[SlotTime]) -> float:
    """Return the seconds from a block's first repetition to its last, round by round."""
    seconds = 0.0
    rounds = max(m.sets for m in members)
    for number in range(rounds):
        active = [m for m in members if m.sets > number]
        again = [m for m in active if m.sets > number + 1]
        work = sum(map(_work, active)) + CHANGEOVER_SECONDS * (len(active) - 1)
        if again:
            back = CHANGEOVER_SECONDS if len(active) > 1 else 0.0
            seconds += max(work + back, max(_work(m) + m.rest_seconds for m in again))
        else:
            seconds += work
    return seconds
