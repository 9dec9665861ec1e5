"""An integer program as plain lists: what a solver is handed, whichever it is."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import inf


@dataclass(slots=True)
class LinearModel:
    """Maximise the sum of `gain` x column, each column between `low` and `high`, each row between its two bounds."""

    gain: list[float] = field(default_factory=list)
    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)
    whole: list[bool] = field(default_factory=list)
    rows: list[dict[int, float]] = field(default_factory=list)
    row_low: list[float] = field(default_factory=list)
    row_high: list[float] = field(default_factory=list)

    def column(self, gain: float = 0.0, low: float = 0.0, high: float = inf, whole: bool = False) -> int:
        """Add a column and return its number."""
        self.gain.append(gain)
        self.low.append(low)
        self.high.append(high)
        self.whole.append(whole)
        return len(self.gain) - 1

    def row(self, parts: Mapping[int, float], low: float = -inf, high: float = inf) -> int:
        """Add a row and return its number."""
        self.rows.append(dict(parts))
        self.row_low.append(low)
        self.row_high.append(high)
        return len(self.rows) - 1
