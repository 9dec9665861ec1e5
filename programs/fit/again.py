"""A running copy, fitted again: what the client's facts ask for now, beside what was done before.

The days that are still open are fitted anew from the program as written, with the coach's earlier choices kept where
they still hold; what comes out is compared with what stands. For some days only (a journey) the copy as it stands is
fitted instead, and what is proposed names its slots.
"""

from collections import defaultdict
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from programs.document import Document
from programs.document.adapt import Change, adapt, slots_in
from programs.fit.fit import STEPS, fit
from programs.fit.match import Pool
from programs.fit.model import Choice, ClientFacts, Proposal
from programs.fit.swaps import why_not

# What a journey does not change: training status and sides are the client's wherever they are.
FOR_SOME_DAYS = tuple(name for name in STEPS if name not in ("side", "status"))
ONCE = ("careful", "start")


@dataclass(frozen=True, slots=True)
class Standing:
    """An adaptation that counts now, by its id; `dated`: made for some days only."""

    pk: int
    change: Change
    params: Mapping[str, Any] = field(default_factory=dict)
    edited: bool = False
    dated: bool = False


@dataclass(frozen=True, slots=True)
class Again:
    """`proposals` are new; `replaces` names by their id what they stand in for. `gone` has no reason any more; of it
    `must_go` brings what the client is kept from, and cannot stay."""

    proposals: tuple[Proposal, ...]
    replaces: Mapping[str, tuple[int, ...]]
    gone: tuple[int, ...] = ()
    must_go: frozenset[int] = frozenset()

    def changes(self, standing: Sequence[Standing], back: Collection[int]) -> list[Change]:
        """Return what the copy is then made of; `back` are those of `gone` that are taken back."""
        off = self.off(back)
        return [one.change for one in standing if one.pk not in off] + [
            one.change for one in self.proposals if one.accepted
        ]

    def off(self, back: Collection[int]) -> set[int]:
        """Return the ids of what does not count any more."""
        replaced = {pk for one in self.proposals if one.accepted for pk in self.replaces.get(one.id, ())}
        return replaced | self.must_go | (set(back) & set(self.gone))


def days_only(document: Document, days: Collection[str]) -> Document:
    """Return the document with these training days alone, by key."""
    return replace(
        document,
        blocks=tuple(
            replace(
                block,
                weeks=tuple(
                    replace(week, days=tuple(day for day in week.days if day.key in days)) for week in block.weeks
                ),
            )
            for block in document.blocks
        ),
    )


def fit_again(
    document: Document,
    days: Collection[str],
    client: ClientFacts,
    pool: Pool,
    standing: Sequence[Standing],
    *,
    written_for: str,
    formula: str = "epley",
    choices: Mapping[str, Choice] | None = None,
) -> Again:
    """Compare what fitting the open `days` (keys) of `document` proposes now with what stands."""
    part = days_only(document, days)
    lasting = [one for one in standing if not one.dated]
    said = {**_seeds(lasting, client), **(choices or {})}
    found = fit(part, client, pool, written_for=written_for, formula=formula, choices=said)
    now = adapt(part, [one.change for one in standing])
    keys = {slot.key for slot in slots_in(part)}
    written = {slot.exercise for slot in slots_in(part)}
    rows: dict[str, list[Standing]] = defaultdict(list)
    for one in lasting:
        rows[_family(one.change)].append(one)
    proposed: dict[str, list[Proposal]] = defaultdict(list)
    for each in found.proposals:
        proposed[each.id.partition(":")[0] if each.id.startswith("fewer") else each.id].append(each)
    proposals: list[Proposal] = []
    replaces: dict[str, tuple[int, ...]] = {}
    for family, some in proposed.items():
        if family.partition(":")[0] in ONCE:
            proposals += _once(some, standing, now, found.document)
        elif [_said(one.change, keys) for one in rows[family]] != [_said(one.change, keys) for one in some]:
            proposals += some
            replaces |= {one.id: tuple(row.pk for row in rows[family]) for one in some}
    gone = [
        one
        for family, some in rows.items()
        if family not in proposed and family.partition(":")[0] not in ONCE
        for one in some
        if (one.change.slots & keys or one.change.pairs if _keyed(one.change) else _about(one.change, written))
    ]
    closed = [one for one in standing if _closed(one.change, client, pool) and (one.dated or one in gone)]
    closed = [one for one in closed if not one.change.slots or one.change.slots & keys]
    ids = tuple(dict.fromkeys(one.pk for one in (*gone, *closed)))
    return Again(tuple(proposals), replaces, ids, frozenset(one.pk for one in closed))


def fit_some_days(
    document: Document,
    days: Collection[str],
    client: ClientFacts,
    pool: Pool,
    standing: Sequence[Standing],
    *,
    written_for: str,
    formula: str = "epley",
    choices: Mapping[str, Choice] | None = None,
) -> Again:
    """Return what the copy as it stands needs on `days` alone; what is proposed names their slots."""
    now = adapt(days_only(document, days), [one.change for one in standing])
    found = fit(now, client, pool, written_for=written_for, formula=formula, choices=choices or {}, only=FOR_SOME_DAYS)
    proposals: list[Proposal] = []
    for one in found.proposals:
        kind = one.id.partition(":")[0]
        if kind == "swap":
            keys = frozenset(slot.key for slot in slots_in(now) if slot.exercise == one.exercise)
            proposals.append(replace(one, change=replace(one.change, slots=keys)))
        elif kind in ONCE:
            proposals += _once([one], standing, now, found.document)
        else:
            proposals.append(one)
    return Again(tuple(proposals), {})


def _family(change: Change) -> str:
    """Return the id of the proposal that an adaptation came from."""
    match change.kind:
        case "swap" | "leave-out":
            return f"swap:{change.exercise}"
        case "one-side" | "start":
            return f"{change.kind}:{change.exercise}"
    return change.kind


def _seeds(standing: Sequence[Standing], client: ClientFacts) -> dict[str, Choice]:
    """Return earlier choices as a coach's: what a client has got used to is not changed without need.

    Left out only stays left out where the coach wanted it; a number only while the status that it was for is theirs.
    """
    said: dict[str, Choice] = {}
    for one in standing:
        change = one.change
        match change.kind:
            case "swap" | "one-side":
                said[_family(change)] = Choice(to=change.to)
            case "leave-out" if one.edited:
                said[_family(change)] = Choice(to=0)
            case "scale" if one.edited and one.params.get("status") == client.status:
                said["scale"] = Choice(number=round(100 * change.factor))
            case "rir" if one.edited and one.params.get("status") == client.status:
                said["rir"] = Choice(number=change.rir)
    return said


def _keyed(change: Change) -> bool:
    return bool(change.slots or change.pairs)


def _about(change: Change, written: set[int]) -> bool:
    return change.exercise is None or change.exercise in written


def _said(change: Change, keys: set[str]) -> tuple[object, ...]:
    """Return what a change does to slots with these keys."""
    pairs = {pair for pair in change.pairs if set(pair) <= keys}
    return change.kind, change.exercise, change.to, change.slots & keys, change.factor, change.less, change.rir, pairs


def _once(some: Sequence[Proposal], standing: Sequence[Standing], now: Document, then: Document) -> list[Proposal]:
    """Return what is asked of first sessions, without what is asked already: careful where no careful one stands, and
    a starting load only for what comes in now: the others are under way."""
    there = {slot.exercise for slot in slots_in(now)}
    covered = {key for one in standing if one.change.kind == "careful" for key in one.change.slots}
    kept = []
    for one in some:
        if one.change.kind == "start":
            kept += [one] if one.exercise not in there else []
            continue
        slots = one.change.slots - covered
        if slots:
            named = [slot.exercise for slot in slots_in(then) if slot.key in slots]
            kept.append(replace(one, change=replace(one.change, slots=slots), params={"exercises": named}))
    return kept


def _closed(change: Change, client: ClientFacts, pool: Pool) -> bool:
    """Say whether a change brings what a limit or pain keeps the client from."""
    if not change.to or change.to not in pool.exercises:
        return False
    reason = why_not(pool.exercises[change.to], client)
    return reason is not None and reason[0] != "fit_equipment"
