"""What is proposed alike to several clients, gathered: decided once, with exceptions."""

import hashlib
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from coaching.fitting.row import Difference, FitRow
from programs.fit.model import Option
from programs.sentences import in_words

# In this order on the page. Pain and a weaker side are one person's own: they are never gathered.
ORDER = ("limits", "gear", "status", "time", "first-time")
LEAST = 2
Key = tuple[object, ...]


@dataclass(frozen=True, slots=True)
class Member:
    """A client of a group, with their differences of it: several where sets fall or loads start."""

    row: FitRow
    differences: tuple[Difference, ...]

    @property
    def open_to(self) -> dict[int, Option]:
        """What the client could be given instead, by exercise."""
        return {option.exercise: option for one in self.differences for option in one.proposal.options}


@dataclass(frozen=True, slots=True)
class Together:
    """`place` is the same for all groups of one exercise (or of one kind), whatever was decided."""

    key: str
    place: str
    members: tuple[Member, ...]

    @property
    def one(self) -> Difference:
        """A member's difference: in what the group says all are alike."""
        return self.members[0].differences[0]

    @property
    def kind(self) -> str:
        return self.one.kind

    @property
    def plain(self) -> bool:
        return self.one.plain

    @property
    def touched(self) -> bool:
        return self.one.touched

    @property
    def what(self) -> str:
        count = sum(len(one.differences) for one in self.members)
        match self.one.family:
            case "pair":
                return _("In pairs, to save time")
            case "fewer":
                return _("Fewer sets, to save time")
            case "careful":
                rir = self.one.proposal.change.rir
                words = ngettext(
                    "First time with %(rir)s more repetition in reserve",
                    "First time with %(rir)s more repetitions in reserve",
                    rir,
                )
                return words % {"rir": rir}
            case "start":
                return ngettext("%(n)s starting load", "%(n)s starting loads", count) % {"n": count}
        return in_words(self.one.what.code, self.one.what.params, self.members[0].row.words)

    @property
    def why(self) -> str:
        words = self.members[0].row.words
        match self.one.family:
            case "pair" | "fewer":
                return _("As written, a session takes longer than these clients have.")
            case "careful":
                return _("New to these clients, or not done for twelve weeks.")
            case "start":
                return _("From each client's own e1RM.")
        return " ".join(in_words(one.code, one.params, words) for one in self.one.why)

    @property
    def options(self) -> list[tuple[Option, int]]:
        """What can be chosen instead, with how many of the members it is open to: what all can do first."""
        found: dict[int, Option] = {}
        count: dict[int, int] = defaultdict(int)
        for member in self.members:
            for pk, option in member.open_to.items():
                found.setdefault(pk, option)
                count[pk] += 1
        return sorted(((found[pk], count[pk]) for pk in found), key=lambda one: -one[1])


def gathered(rows: Sequence[FitRow]) -> list[Together]:
    """Return what several clients share, in the order in which it should be looked at."""
    found: dict[Key, list[Member]] = defaultdict(list)
    for row in rows:
        for key, some in _by_key(row).items():
            found[key].append(Member(row, tuple(some)))
    groups = [Together(_digest(key), _digest(_place(key)), tuple(some)) for key, some in found.items()]
    return sorted((one for one in groups if len(one.members) >= LEAST), key=_order)


def with_shared(rows: Iterable[FitRow], groups: Iterable[Together]) -> list[FitRow]:
    """Return the rows with the ids of what stands in a group."""
    shared: dict[int, set[str]] = defaultdict(set)
    for group in groups:
        for member in group.members:
            shared[member.row.client.pk] |= {one.proposal.id for one in member.differences}
    return [replace(row, shared=frozenset(shared[row.client.pk])) for row in rows]


def _by_key(row: FitRow) -> dict[Key, list[Difference]]:
    found: dict[Key, list[Difference]] = defaultdict(list)
    for one in row.said:
        if one.kind in ORDER:
            found[_key(one)].append(one)
    # Some of a client's own done and others not: that is said in the row.
    halved = {key[:-1] for key in found if (*key[:-1], not key[-1]) in found}
    return {key: some for key, some in found.items() if key[:-1] not in halved}


def _key(one: Difference) -> Key:
    """Return what two clients' differences must have in common to be one decision; last, whether it is done."""
    said = one.proposal
    match one.family:
        case "swap":
            cause = said.params.get("limits") or said.params.get("equipment")
            # Left out by the coach is not left out for want of a substitute.
            about: Key = (one.kind, said.exercise, str(cause), said.change.to or 0, said.required, said.edited)
        case "scale" | "rir":
            about = (one.kind, said.params["status"], said.number)
        case "careful":
            about = (one.kind, said.number)
        case _:
            about = (one.kind,)
    return (one.family, *about, said.accepted)


def _place(key: Key) -> Key:
    return key[:3] if key[0] == "swap" else key[:1]


def _digest(key: Key) -> str:
    return f"t{hashlib.sha256(repr(key).encode()).hexdigest()[:12]}"


def _order(group: Together) -> tuple[object, ...]:
    one = group.one
    cause = str(one.proposal.params.get("limits") or one.proposal.params.get("equipment") or "")
    return (
        ORDER.index(group.kind),
        not one.unmet,
        one.plain,
        cause,
        one.proposal.exercise or 0,
        -len(group.members),
        group.key,
    )
