"""The limits of clients, read for many at once, and what they close of a plan."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from accounts.models import Client
from programs.document import Document, Slot
from programs.document.adapt import slots_in
from programs.models import ClientLimit, Exercise
from programs.services.limits import Limits, violations


@dataclass(frozen=True, slots=True)
class Closed:
    """A slot whose exercise is closed to a client, and why: what `violations` says."""

    slot: Slot
    exercise: Exercise
    why: tuple[str, ...]


def limits_by_client(clients: Iterable[Client], day: date) -> dict[int, Limits]:
    """Return the limits that hold on `day` or later, by the client's id; no entry for who has none (one query)."""
    slugs: dict[int, set[str]] = {}
    avoided: dict[int, set[int]] = {}
    rows = ClientLimit.objects.filter(client__in=list(clients)).holding(day).order_by()
    for client, slug, exercise in rows.values_list("client_id", "limit__slug", "exercise_id"):
        slugs.setdefault(client, set()).update([slug] if slug else [])
        avoided.setdefault(client, set()).update([exercise] if exercise else [])
    return {pk: Limits(frozenset(slugs[pk]), frozenset(avoided[pk])) for pk in slugs}


@dataclass(frozen=True, slots=True)
class DatedLimit:
    """`until` None: until it is taken off. Either `slug` or `exercise` is given."""

    since: date
    until: date | None
    slug: str | None
    exercise: int | None


@dataclass(frozen=True, slots=True)
class DatedLimits:
    """One client's limits with their days."""

    rows: tuple[DatedLimit, ...] = ()

    def during(self, first: date, last: date | None = None) -> Limits:
        """Return the limits that hold on any day from `first` to `last`; without a last day also those that begin
        later."""
        held = [one for one in self.rows if one.until is None or one.until >= first]
        held = [one for one in held if last is None or one.since <= last]
        return Limits(
            frozenset(one.slug for one in held if one.slug),
            frozenset(one.exercise for one in held if one.exercise),
        )


def dated_limits(client: Client, day: date) -> DatedLimits:
    """Return the limits of one client that hold on `day` or later, with their days (one query)."""
    return dated_limits_by_client([client], day).get(client.pk, DatedLimits())


def dated_limits_by_client(clients: Iterable[Client], day: date) -> dict[int, DatedLimits]:
    """Return the limits that hold on `day` or later, with their days, by the client's id; no entry for who has none
    (one query)."""
    rows = ClientLimit.objects.filter(client__in=list(clients)).holding(day).order_by()
    found: dict[int, list[DatedLimit]] = {}
    for client, *row in rows.values_list("client_id", "since", "until", "limit__slug", "exercise_id"):
        found.setdefault(client, []).append(DatedLimit(*row))
    return {pk: DatedLimits(tuple(some)) for pk, some in found.items()}


def limits_of_client(client: Client, day: date) -> Limits:
    """Return the limits of one client that hold on `day` or later (one query)."""
    return limits_by_client([client], day).get(client.pk, Limits())


def judged(ids: Iterable[int]) -> dict[int, Exercise]:
    """Return exercises by id with what `violations` asks of them (two queries)."""
    return {row.pk: row for row in Exercise.objects.filter(pk__in=set(ids)).prefetch_related("limits")}


def closed_slots(document: Document, limits: Limits, exercises: dict[int, Exercise] | None = None) -> list[Closed]:
    """Return the slots of a document that `limits` close; `exercises` as `judged` gives them, read when not given."""
    if not limits:
        return []
    slots = slots_in(document)
    known = judged(slot.exercise for slot in slots) if exercises is None else exercises
    closed = {pk: tuple(why) for pk, row in known.items() if (why := violations(row, limits))}
    return [Closed(slot, known[slot.exercise], closed[slot.exercise]) for slot in slots if slot.exercise in closed]
