"""What became known of a client since their copy of a program was fitted, and which planned exercises it is about."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import Case, Count, Exists, F, OuterRef, Q, QuerySet, Subquery, Value, When
from django.db.models.functions import Coalesce

from accounts.models import Client
from periodization.rules import Reason
from programs.models import Assignment, ClientEquipment, ClientLimit, PlannedSlot
from programs.services.client_limits import limits_by_client
from programs.services.limits import AVOIDED, Limits

Kept = dict[str, Any]


def facts_kept(clients: Iterable[Client], limits: Mapping[int, Limits]) -> dict[int, Kept]:
    """Return, by the client's id, what a copy that is fitted now is fitted to, as JSON holds it (one query).

    {"limits": slugs, "exercises": ids kept from, "equipment": ids or None for everything, "minutes",
    "status"}.
    """
    many = list(clients)
    equipment: dict[int, list[int]] = defaultdict(list)
    rows = ClientEquipment.objects.filter(client__in=many).order_by("equipment").values_list("client", "equipment")
    for pk, item in rows:
        equipment[pk].append(item)
    return {
        client.pk: {
            "limits": sorted(limits.get(client.pk, Limits()).slugs),
            "exercises": sorted(limits.get(client.pk, Limits()).exercises),
            "equipment": equipment.get(client.pk),
            "minutes": client.minutes_per_session,
            "status": client.training_status,
        }
        for client in many
    }


def fitted_on(assignment: Assignment, day: date) -> date:
    """Return the day whose limits count for a copy that is fitted on `day`: its first one, where that is to come."""
    return max(day, assignment.starts_on)


def changed_since(then: Mapping[str, Any] | None, now: Mapping[str, Any]) -> list[Reason]:
    """Return what is otherwise than it was when the copy was fitted; nothing where that was not kept."""
    if then is None:
        return []
    said: list[Reason] = []
    for code, more, less in (("fit_since_limit", now, then), ("fit_since_over", then, now)):
        slugs = sorted(set(more["limits"]) - set(less["limits"]))
        if set(more["exercises"]) - set(less["exercises"]):
            slugs.append(AVOIDED)
        if slugs:
            said.append(Reason(code, {"limits": slugs}))
    if now["equipment"] != then["equipment"]:
        said.append(Reason("fit_since_equipment", {}))
    if now["minutes"] != then["minutes"]:
        end = "_any" if now["minutes"] is None else "_new" if then["minutes"] is None else ""
        said.append(Reason(f"fit_since_minutes{end}", {"minutes": now["minutes"], "before": then["minutes"]}))
    if now["status"] != then["status"]:
        said.append(Reason("fit_since_status", {"status": now["status"], "before": then["status"]}))
    return said


def with_closed(rows: QuerySet[PlannedSlot], day: date) -> QuerySet[PlannedSlot]:
    """Add to planned rows `closed`: whether a limit of their client that holds on `day` or later, and on the row's own
    day, closes the exercise, as `limits.violations` says it, and `closed_by`: the first such limit's name, None where
    it is another reason."""
    held = ClientLimit.objects.filter(client=OuterRef("session__client")).holding(day).order_by()
    on = OuterRef("session__date")
    held = held.filter(Q(until=None) | Q(until__gte=on), since__lte=on)
    by_limit = held.filter(limit__exercises=OuterRef("exercise"))
    named = held.filter(exercise=OuterRef("exercise"))
    unjudged = Q(exercise__limits_judged=False) & Exists(held.exclude(limit=None))
    return rows.annotate(
        closed=Exists(by_limit) | Exists(named) | unjudged,
        closed_by=Subquery(by_limit.order_by("limit__position").values("limit__name")[:1]),
    )


def open_rows(day: date) -> QuerySet[PlannedSlot]:
    """Return the rows of sessions that are still to come on `day` or later and not begun."""
    return PlannedSlot.objects.filter(
        session__date__gte=day, session__cancelled_at=None, session__performed=None
    ).order_by()


def closed_count(client: str, day: date) -> Case:
    """Return, for a query of clients, how many exercises they have planned that their limits close; `client` is the
    column of their id. Only whoever has a limit costs anything."""
    rows = with_closed(open_rows(day).filter(session__client=OuterRef(client)), day).filter(closed=True)
    count = rows.values("session__client").annotate(n=Count("exercise", distinct=True)).values("n")
    held = ClientLimit.objects.filter(client=OuterRef(client)).holding(day).order_by()
    return Case(When(Exists(held), then=Coalesce(Subquery(count), 0)), default=Value(0))


@dataclass(frozen=True, slots=True)
class Since:
    """`closed` and `missing` are names of exercises that are still planned: kept from, and without their equipment."""

    assignment: Assignment
    changed: list[Reason]
    closed: list[str]
    missing: list[str]


def since_fitted(client: Client, assignments: Iterable[Assignment], day: date) -> list[Since]:
    """Return those copies of a client to which something changed (three queries, and two for each first day that is to
    come; none without copies)."""
    many = list(assignments)
    if not many:
        return []
    days = {fitted_on(one, day) for one in many}
    now = {one: facts_kept([client], limits_by_client([client], one))[client.pk] for one in days}
    has = ClientEquipment.objects.filter(client=client).order_by()
    rows = with_closed(open_rows(day).filter(session__assignment__in=many), day)
    rows = rows.annotate(missing=Exists(has) & ~Exists(has.filter(equipment=OuterRef("exercise__equipment"))))
    found: dict[int, dict[str, set[str]]] = defaultdict(lambda: defaultdict(set))
    about = rows.filter(Q(closed=True) | Q(missing=True)).values_list(
        "session__assignment", "closed", F("exercise__name")
    )
    for pk, closed, name in about.distinct():
        found[pk]["closed" if closed else "missing"].add(name)
    result = []
    for one in many:
        changed, mine = changed_since(one.fitted_to, now[fitted_on(one, day)]), found[one.pk]
        # What is missing and was so when the copy was fitted was left by the coach.
        missing = sorted(mine["missing"]) if any(said.code == "fit_since_equipment" for said in changed) else []
        if changed or mine["closed"]:
            result.append(Since(one, changed, sorted(mine["closed"]), missing))
    return result
