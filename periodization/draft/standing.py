"""The worth of one more slot, without counting the whole week anew. The tests hold it to what `score` says."""

from periodization.draft.facts import Facts
from periodization.draft.score import Sets, aim, exposures, score, volume


class Standing:
    """What a week amounts to, so that many candidates for one more slot can be compared quickly."""

    def __init__(self, facts: Facts, sets: Sets) -> None:
        self.facts, self.weights = facts, facts.request.weights
        self.points = score(facts, sets)
        self.volume = volume(facts, sets)
        self.aims = {group: aim(facts, group) for group in facts.targets}
        self.used = {exercise for _, exercise in sets}
        ones = [facts.exercises[exercise] for exercise in self.used]
        self.heads = {head for one in ones for head in one.covers}
        self.long = {group for one in ones for group in one.long}
        self.variety = {pair for one in ones for pair in one.variety}
        self.stations = {(day, facts.exercises[exercise].equipment) for day, exercise in sets}
        self.weighs_spacing = bool(facts.near) and not facts.request.spacing_must
        self.exposed = exposures(facts, sets) if self.weighs_spacing else set()

    def with_slot(self, day: str, exercise: str, amount: int) -> float:
        """Return the points of the week with `amount` sets of `exercise` on `day` besides."""
        one, facts, weights = self.facts.exercises[exercise], self.facts, self.weights
        points = self.points - one.loss * amount - weights.setup * one.setup_minutes
        for group, credit in one.credit.items():
            points += self._worth(group, self.volume[group] + credit * amount) - self._worth(group, self.volume[group])
        for head in one.covers - self.heads:
            points += weights.heads * facts.factor[facts.group_of_head[head]]
        for group in one.long - self.long:
            points += weights.long * facts.factor[group]
        for group, _ in one.variety - self.variety:
            points += weights.variety * facts.factor[group]
        if (day, one.equipment) not in self.stations:
            points -= weights.station
        if exercise in self.used:
            points -= weights.repeat
        return points - self._too_soon(day, one.direct)

    def _worth(self, group: str, amount: float) -> float:
        target, weights = self.facts.targets[group], self.weights
        worth = weights.floor * min(amount, target.floor)
        worth += weights.volume * max(0.0, min(amount, self.aims[group]) - target.floor)
        if not target.ceiling_must:
            worth -= weights.over * max(0.0, amount - target.ceiling)
        return worth * self.facts.factor[group]

    def _too_soon(self, day: str, groups: frozenset[str]) -> float:
        """Return what it costs that the groups are now trained on `day` too."""
        if not self.weighs_spacing:
            return 0.0
        cost = 0.0
        for first, second in self.facts.near:
            if day in (first, second):
                other = second if day == first else first
                for group in groups:
                    if (day, group) not in self.exposed and (other, group) in self.exposed:
                        cost += self.weights.spacing * self.facts.factor[group]
        return cost
