"""A running copy, fitted again: what the client's facts ask for now, beside what was done before.

The days that are still open are fitted anew from the program as written, with the coach's earlier choices kept where
they still hold; what comes out is compared with what stands. Where a decision gave another exercise, that one is fitted
and not what is written. For some days only (a journey) the copy as it stands is fitted instead, and what is proposed
names its slots.
"""

from collections import defaultdict
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

from programs.document import Document
from programs.document.adapt import Change, adapt, slots_in
from programs.fit.fit import STEPS, fit
from programs.fit.match import Pool
from programs.fit.model import Choice, ClientFacts, Proposal
from programs.fit.standing import Copy, Standing, days_only, family, seeds, with_exercises
from programs.fit.swaps import swap_proposals, why_not

# What a journey does not change: training status and sides are the client's wherever they are.
FOR_SOME_DAYS = tuple(name for name in STEPS if name not in ("side", "status"))
ONCE = ("careful", "start")


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


def fit_again(
    copy: Copy, client: ClientFacts, pool: Pool, *, formula: str = "epley", choices: Mapping[str, Choice] | None = None
) -> Again:
    """Compare what fitting the open days of the copy proposes now with what stands."""
    written, given = days_only(copy.document, copy.days), copy.given
    part = with_exercises(written, given)
    lasting = [one for one in copy.standing if not one.dated]
    said = {**seeds(lasting, client), **(choices or {})}
    # A decided exercise is fitted like one that is written; only what is done then names its slots.
    said |= {f"swap:{pk}": said[f"decided:{pk}"] for pk in set(given.values()) if f"decided:{pk}" in said}
    found = fit(part, client, pool, written_for=copy.written_for, formula=formula, choices=said)
    now = with_exercises(adapt(written, [one.change for one in copy.standing]), copy.decided)
    keys = {slot.key for slot in slots_in(part)}
    exercises = {slot.exercise for slot in slots_in(written)}
    rows: dict[str, list[Standing]] = defaultdict(list)
    for one in lasting:
        rows[family(one)].append(one)
    proposed: dict[str, list[Proposal]] = defaultdict(list)
    hidden = exercises - {slot.exercise for slot in slots_in(part)}
    # What is written under a decided exercise is not given now, and would be once that is taken back.
    under = [one for one in swap_proposals(written, client, pool, said) if one.exercise in hidden]
    for each in (*found.proposals, *under):
        for one in _named(each, written, given):
            proposed[one.id.partition(":")[0] if one.id.startswith("fewer") else one.id].append(one)
    proposals: list[Proposal] = []
    replaces: dict[str, tuple[int, ...]] = {}
    for name, some in proposed.items():
        if name.partition(":")[0] in ONCE:
            proposals += _once(some, copy, now, found.document)
        elif [_said(one.change, keys) for one in rows[name]] != [_said(one.change, keys) for one in some]:
            proposals += some
            replaces |= {one.id: tuple(row.pk for row in rows[name]) for one in some}
    gone = [
        one
        for name, some in rows.items()
        if name not in proposed and name.partition(":")[0] not in ONCE
        for one in some
        if (one.change.slots & keys or one.change.pairs if _keyed(one.change) else _about(one.change, exercises))
    ]
    closed = [one for one in copy.standing if _closed(one, client, pool) and (one.dated or one in gone)]
    closed = [one for one in closed if not one.change.slots or one.change.slots & keys]
    ids = tuple(dict.fromkeys(one.pk for one in (*gone, *closed)))
    return Again(tuple(proposals), replaces, ids, frozenset(one.pk for one in closed))


def fit_some_days(
    copy: Copy, client: ClientFacts, pool: Pool, *, formula: str = "epley", choices: Mapping[str, Choice] | None = None
) -> Again:
    """Return what the copy as it stands needs on its open days alone; what is proposed names their slots."""
    now = with_exercises(
        adapt(days_only(copy.document, copy.days), [one.change for one in copy.standing]), copy.decided
    )
    found = fit(
        now,
        client,
        pool,
        written_for=copy.written_for,
        formula=formula,
        choices=choices or {},
        only=FOR_SOME_DAYS,
    )
    proposals: list[Proposal] = []
    for one in found.proposals:
        kind = one.id.partition(":")[0]
        if kind == "swap":
            keys = frozenset(slot.key for slot in slots_in(now) if slot.exercise == one.exercise)
            proposals.append(replace(one, change=replace(one.change, slots=keys)))
        elif kind in ONCE:
            proposals += _once([one], copy, now, found.document)
        else:
            proposals.append(one)
    return Again(tuple(proposals), {})


def _named(one: Proposal, written: Document, given: Mapping[str, int]) -> list[Proposal]:
    """Return a proposal as it is to be recorded: about what a decision gave it names the slots, and where the program
    writes the same exercise elsewhere it stands beside the one about that."""
    keys = frozenset(key for key, exercise in given.items() if exercise == one.exercise)
    kind = one.id.partition(":")[0]
    if not keys or kind not in ("swap", "one-side"):
        return [one]
    elsewhere = any(slot.exercise == one.exercise and slot.key not in given for slot in slots_in(written))
    kept = [one] if elsewhere else []
    if kind == "one-side":
        # What a decision gave for one exercise is not exchanged for a reason that can wait.
        return kept
    here = keys & {slot.key for slot in slots_in(written)}
    slots = replace(one.change, slots=here)
    return [*kept, replace(one, id=f"decided:{one.exercise}", change=slots)] if here else kept


def _keyed(change: Change) -> bool:
    return bool(change.slots or change.pairs)


def _about(change: Change, written: set[int]) -> bool:
    return change.exercise is None or change.exercise in written


def _said(change: Change, keys: set[str]) -> tuple[object, ...]:
    """Return what a change does to slots with these keys."""
    pairs = {pair for pair in change.pairs if set(pair) <= keys}
    return change.kind, change.exercise, change.to, change.slots & keys, change.factor, change.less, change.rir, pairs


def _once(some: Sequence[Proposal], copy: Copy, now: Document, then: Document) -> list[Proposal]:
    """Return what is asked of first sessions, without what is asked already: careful where no careful one stands, and
    a starting load only for what comes in now: the others are under way, and so is what a decision gave and stays."""
    there = {slot.exercise for slot in slots_in(now)}
    covered = {key for one in copy.standing if one.change.kind == "careful" for key in one.change.slots}
    covered |= {slot.key for slot in slots_in(then) if copy.decided.get(slot.key) == slot.exercise}
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


def _closed(one: Standing, client: ClientFacts, pool: Pool) -> bool:
    """Say whether an adaptation brings what a limit or pain keeps the client from, on the days that it is for."""
    if not one.change.to or one.change.to not in pool.exercises:
        return False
    facts = client if one.limits is None else replace(client, limits=one.limits)
    reason = why_not(pool.exercises[one.change.to], facts)
    return reason is not None and reason[0] != "fit_equipment"
