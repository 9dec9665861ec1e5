"""The integer program of a week: which exercises, on which days, with how many sets."""

from dataclasses import dataclass, field

from periodization.draft.demands import Demand
from periodization.draft.facts import Facts
from periodization.draft.linear import LinearModel
from periodization.draft.score import Sets


@dataclass(slots=True)
class WeekModel:
    """`use` and `more` are columns by (day, exercise): used or not, and sets beyond the least. `slack` has, for each
    demand with a number that was left out, the column of how far it is missed."""

    facts: Facts
    active: frozenset[Demand]
    linear: LinearModel = field(default_factory=LinearModel)
    use: dict[tuple[str, str], int] = field(default_factory=dict)
    more: dict[tuple[str, str], int] = field(default_factory=dict)
    volume: dict[tuple[str, str], int] = field(default_factory=dict)
    exposed: dict[tuple[str, str], int] = field(default_factory=dict)
    slack: dict[Demand, int] = field(default_factory=dict)

    def sets_row(self, key: tuple[str, str], share: float) -> dict[int, float]:
        """Return the parts of `share` x sets."""
        return {self.use[key]: share * self.facts.request.sets[0], self.more[key]: share}

    def missed(self, demand: Demand) -> int:
        """Return the column that measures how far a demand that was left out is missed."""
        if demand not in self.slack:
            self.slack[demand] = self.linear.column()
        return self.slack[demand]

    def most(self, demand: Demand, parts: dict[int, float], high: float) -> None:
        """Hold the parts at or under `high`, or measure the excess when the demand was left out."""
        extra = {} if demand in self.active else {self.missed(demand): -1.0}
        self.linear.row({**parts, **extra}, high=high)

    def least(self, demand: Demand, parts: dict[int, float], low: float) -> None:
        """Hold the parts at or over `low`, or measure the lack when the demand was left out."""
        extra = {} if demand in self.active else {self.missed(demand): 1.0}
        self.linear.row({**parts, **extra}, low=low)

    def read(self, values: list[float]) -> Sets:
        """Return the sets of a solution."""
        least = self.facts.request.sets[0]
        return {key: least + round(values[self.more[key]]) for key, column in self.use.items() if round(values[column])}
