"""One client on the fitting page: what differs, how much of it has to be read, and what it does to the week."""

from collections.abc import Iterator
from dataclasses import dataclass

from accounts.models import Client
from coaching.fitting.forms import ChoiceForm
from periodization.rules import Reason
from programs.fit.effect import Effect, GroupEffect
from programs.fit.fit import Fitted
from programs.fit.model import ClientFacts, Proposal
from programs.sentences import Words

# What a difference comes from, by the kind of its change; another exercise by its reason.
KINDS = {
    "one-side": "side",
    "scale": "status",
    "rir": "status",
    "pair": "time",
    "fewer": "time",
    "careful": "first-time",
    "start": "first-time",
}


@dataclass(frozen=True, slots=True)
class Difference:
    proposal: Proposal
    what: Reason
    why: list[Reason]

    @property
    def kind(self) -> str:
        """What it comes from: `limits`, `pain`, `gear`, `side`, `status`, `time` or `first-time`."""
        reason = self.proposal.reason
        if self.proposal.change.kind in KINDS:
            return KINDS[self.proposal.change.kind]
        return "gear" if reason.startswith("fit_equipment") else "pain" if reason.startswith("fit_pain") else "limits"

    @property
    def family(self) -> str:
        """The proposal's id without the exercise or number that it is about."""
        return self.proposal.id.partition(":")[0]

    @property
    def touched(self) -> bool:
        """Say whether the coach said otherwise than proposed."""
        return self.proposal.edited or not self.proposal.accepted

    @property
    def out(self) -> bool:
        return self.proposal.accepted and self.proposal.change.kind == "leave-out"

    @property
    def unmet(self) -> bool:
        """Say whether an exercise is left out because nothing can stand for it, and not because the coach wants it."""
        return self.out and not self.proposal.edited

    @property
    def loses(self) -> bool:
        """Say whether a substitute loses something, or is harder."""
        return self.proposal.accepted and any(why.code.startswith(("fit_less", "fit_harder")) for why in self.why)

    @property
    def kinds(self) -> set[str]:
        """What a page can be sifted by to find it."""
        said = {"out": self.out, "loses": self.loses, "changed": self.touched}
        return {self.kind} | {code for code, holds in said.items() if holds}

    @property
    def plain(self) -> bool:
        """Say whether it swaps what is not at hand for what is as good, as proposed: no loss, nothing harder."""
        swapped = self.proposal.change.kind == "swap" and [why.code for why in self.why] == ["fit_equipment"]
        return swapped and not self.touched

    @property
    def routine(self) -> bool:
        """Say whether there is nothing to decide about it."""
        return self.plain or (self.kind == "first-time" and not self.touched)


@dataclass(frozen=True, slots=True)
class FitRow:
    """`shared`: ids of the proposals that stand above the rows, to be decided for several clients at once;
    `shown`: what the page is sifted by."""

    client: Client
    facts: ClientFacts
    fitted: Fitted
    said: list[Difference]
    effect: Effect | None
    words: Words
    shared: frozenset[str] = frozenset()
    shown: str = ""
    form: ChoiceForm | None = None

    @property
    def to_read(self) -> list[Difference]:
        """What a coach should read in this row: what is no routine and not decided above with others, and always pain
        and what has no substitute."""
        return [
            one
            for one in self.said
            if one.unmet or one.kind == "pain" or not (one.routine or one.proposal.id in self.shared)
        ]

    @property
    def in_sight(self) -> list[Difference]:
        """What is to be read, and what the page is sifted by."""
        read = {one.proposal.id for one in self.to_read}
        sifted = {one.proposal.id for one in self.said if self.shown in one.kinds and one.family != "start"}
        return [one for one in self.said if one.proposal.id in read | sifted]

    @property
    def folded(self) -> list[Difference]:
        """The other differences, without the starting loads: those are many and alike."""
        seen = {one.proposal.id for one in self.in_sight}
        return [one for one in self.said if one.proposal.id not in seen and one.family != "start"]

    @property
    def starts(self) -> list[Difference]:
        seen = {one.proposal.id for one in self.in_sight}
        return [one for one in self.said if one.family == "start" and one.proposal.id not in seen]

    @property
    def leaves(self) -> tuple[GroupEffect, ...]:
        """The muscle groups that leave their range by what differs."""
        return tuple(one for one in self.effect.groups if one.leaves) if self.effect else ()

    @property
    def others(self) -> list[GroupEffect]:
        """The other groups that change: those outside their range first, which they were before."""
        rest = [one for one in self.effect.groups if not one.leaves] if self.effect else []
        return sorted(rest, key=lambda one: one.standing == "inside")

    @property
    def first(self) -> bool:
        """Say whether it deserves a look before the others: something is left out, a limit or pain that is this
        client's alone, or a muscle group that falls under its floor."""
        grave = any(one.unmet or one.kind in ("pain", "limits") for one in self.to_read if not one.proposal.edited)
        return grave or any(one.standing == "under" for one in self.leaves)

    @property
    def urgency(self) -> tuple[int, int, int]:
        """Sort key: the most urgent has the least."""
        return (
            -sum(one.unmet for one in self.said),
            -sum(one.kind in ("pain", "limits") for one in self.to_read),
            -sum(one.standing == "under" for one in self.leaves),
        )

    @property
    def place(self) -> str:
        """Where the row stands: `first`, `read` (something of its own to read) or `rest`."""
        return "first" if self.first else "read" if self.to_read or self.leaves else "rest"

    @property
    def kinds(self) -> set[str]:
        """What the page can be sifted by to find this row."""
        return set(self._kinds())

    def _kinds(self) -> Iterator[str]:
        yield self.place
        for one in self.said:
            yield from one.kinds
        for group in self.leaves:
            yield group.standing
        if not self.said:
            yield "same"

    @property
    def edited(self) -> bool:
        return any(one.touched for one in self.said)
