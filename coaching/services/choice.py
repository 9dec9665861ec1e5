"""What a coach wants otherwise than proposed."""

from collections.abc import Collection
from dataclasses import dataclass
from typing import Any

from periodization.deload import reduced_sets

MOST_RIR = 10


@dataclass(frozen=True)
class Choice:
    """Only what differs from the proposal is set. `to_exercise`: what to do instead; `smaller`: not that, but the
    smaller range of each slot that has one; `onward`: in the later sessions of the plan, too.

    `slots`: those to change, by id; `sets_share` and `rir_up`: how far sets fall and RIR rises; `text`: what to write
    to the client.
    """

    to_exercise: int | None = None
    slots: Collection[int] | None = None
    sets_share: float | None = None
    rir_up: int | None = None
    text: str = ""
    smaller: bool = False
    onward: bool = False

    def applied_to(self, proposal: dict[str, Any]) -> dict[str, Any]:
        """Return the proposal as chosen; the digest of what was seen is compared before."""
        rows = [self._row(one) for one in proposal["slots"] if self.slots is None or one["slot"] in self.slots]
        changed = {**proposal, "slots": rows, "sets": [sum(one["sets"][n] for one in rows) for n in (0, 1)]}
        for name in ("sets_share", "rir_up", "text", "onward"):
            if getattr(self, name):
                changed[name] = getattr(self, name)
        return changed

    def _row(self, one: dict[str, Any]) -> dict[str, Any]:
        row = dict(one)
        if self.to_exercise is not None:
            row["to_exercise"] = self.to_exercise
        if self.smaller and "smaller" in one:
            for name, value in zip(("reps_min", "reps_max"), one["smaller"], strict=True):
                row[name] = [one[name][0], value]
        if self.sets_share is not None:
            row["sets"] = [one["sets"][0], reduced_sets(one["sets"][0], self.sets_share)]
        if self.rir_up is not None:
            for name in ("rir_min", "rir_max"):
                row[name] = [one[name][0], min(MOST_RIR, one[name][0] + self.rir_up)]
        return row
