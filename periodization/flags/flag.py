"""What a rule says, and what a rule is."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Literal

from periodization.flags.facts import ClientHistory
from periodization.flags.thresholds import Thresholds
from periodization.rules import Filling, Param, Rule

Severity = Literal["watch", "act", "stop"]
SubjectKind = Literal["client", "exercise", "group", "site"]
# Signs of one family are read off the same evidence, so together they are one sign.
Family = Literal["performance", "check_in", "soreness", "pain", "attendance", "volume"]


@dataclass(frozen=True, slots=True)
class Flag:
    """Something the numbers show on the day of the evaluation.

    `subject` is "" for the client, else the exercise's or group's id or the site of the body. `exercises` are concerned
    beside the subject; those of them in `stopped` are to be left out, each since its day in `stopped_on`;
    `everything`: all training is concerned.
    `opened_on` is the day of the oldest evidence. `values` are the figures compared, `thresholds` what they were
    compared with. `code` and `params` make the sentence, `clears_code` and `clears_params` the sentence that says what
    would clear it. `weight`: how strong the sign is, in SDs of its own noise, for rules that add up signs; 0 where that
    cannot be said. `quiet`: too weak to be shown by itself; it only counts together with other signs.
    """

    rule_id: str
    version: int
    family: Family
    severity: Severity
    subject_kind: SubjectKind
    subject: str
    opened_on: date
    evidence_ids: tuple[str, ...]
    code: str
    clears_code: str
    params: Mapping[str, Filling] = field(default_factory=dict)
    clears_params: Mapping[str, Param] = field(default_factory=dict)
    values: Mapping[str, Filling] = field(default_factory=dict)
    thresholds: Mapping[str, Param] = field(default_factory=dict)
    weight: float = 0.0
    exercises: tuple[str, ...] = ()
    stopped: tuple[str, ...] = ()
    stopped_on: tuple[date, ...] = ()
    everything: bool = False
    quiet: bool = False

    def holds(self, exercise: str) -> bool:
        """Say whether nothing may be raised on this exercise while the flag stands."""
        if self.exercises or self.subject_kind == "exercise":
            own = exercise == self.subject or exercise in self.exercises
        else:
            own = self.subject_kind == "client" and self.severity != "watch"
        return own or self.everything


Check = Callable[[ClientHistory, date, Thresholds], Iterable[Flag]]


@dataclass(frozen=True, slots=True)
class FlagRule:
    """A pure rule. It is shown only the `window` days up to the evaluation's day, so nothing older can change it."""

    rule: Rule
    family: Family
    window: Callable[[Thresholds], int]
    check: Check

    def evaluate(self, history: ClientHistory, today: date, thresholds: Thresholds) -> tuple[Flag, ...]:
        """Return the rule's flags on `today`, ordered by subject."""
        seen = history.between(today - timedelta(self.window(thresholds)), today)
        return tuple(sorted(self.check(seen, today, thresholds), key=lambda f: (f.subject_kind, f.subject)))
