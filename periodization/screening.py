"""Whether somebody should see a clinician before they train. A refusal to clear, never a clearance."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Literal

from periodization.rules import Rule

RULE = Rule("screening.branches", 1, "Riebe et al. 2015, figure 2 (MEMORY); signs after ACSM table 2.2 (SOURCED)")

ACTIVE = "active"
KNOWN = ("known-heart", "known-metabolic", "known-kidney")
SIGNS = (
    "sign-chest",
    "sign-breathless",
    "sign-dizzy",
    "sign-lying",
    "sign-ankles",
    "sign-heartbeat",
    "sign-calf",
    "sign-murmur",
    "sign-tired",
)
# Not of the published algorithm: whoever was told to train under conditions only has to say so before any plan.
TOLD = "told"
QUESTIONS = (ACTIVE, *SIGNS, *KNOWN, TOLD)

Outcome = Literal["sign", "known", "told", "start-easy", "go-on"]
CLINICIAN_FIRST: frozenset[str] = frozenset({"sign", "known", "told"})


@dataclass(frozen=True, slots=True)
class Screened:
    """`because`: the questions answered with yes that led to it, in the order asked."""

    outcome: Outcome
    because: tuple[str, ...]

    @property
    def clinician_first(self) -> bool:
        return self.outcome in CLINICIAN_FIRST


def screen(answers: Mapping[str, bool]) -> Screened:
    """Return what follows from the answers; ValueError unless each of `QUESTIONS` is answered.

    Sets near failure count as vigorous, whatever the load: a known disease therefore asks for a clinician's word also
    when the person is active. Any sign asks for it whatever else was answered.
    """
    if missing := [name for name in QUESTIONS if name not in answers]:
        raise ValueError(f"not answered: {', '.join(missing)}")
    if signs := _yes(answers, SIGNS):
        return Screened("sign", signs)
    if known := _yes(answers, KNOWN):
        return Screened("known", known)
    if answers[TOLD]:
        return Screened("told", (TOLD,))
    return Screened("go-on" if answers[ACTIVE] else "start-easy", ())


def _yes(answers: Mapping[str, bool], names: Collection[str]) -> tuple[str, ...]:
    return tuple(name for name in names if answers[name])
