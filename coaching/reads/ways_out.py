"""What to do instead of the exercises that questions are about, open to each client: a few queries for any number."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from django.db.models import Q

from accounts.models import Client, Practice
from coaching.models import Prompt
from coaching.recompute.calendar import WEEK
from coaching.recompute.prompts import topic_of
from programs.models import ClientEquipment, Equipment, Exercise, ExerciseLink
from programs.services.client_limits import limits_by_client
from programs.services.exercise_substitutes import Substitute, substitutes_for_many
from programs.services.exercise_visible import exercises_of
from programs.services.limits import Limits, violations

MOST_SUBSTITUTES = 8
Way = tuple[int, str]


@dataclass(frozen=True)
class WaysOut:
    """`variants` are those that the library lists in the direction asked for; `others` train nearly the same."""

    variants: tuple[Way, ...] = ()
    others: tuple[Way, ...] = ()


@dataclass(frozen=True)
class _Open:
    """What one client can do: on the equipment they have, within their limits, and not stopped by pain."""

    equipment: frozenset[int]
    limits: Limits
    stopped: frozenset[int]

    def allows(self, exercise: Exercise, site: str) -> bool:
        here = not self.equipment or exercise.equipment_id in self.equipment
        hurts = bool(site) and any(row.site == site for row in exercise.limits.all())
        return here and not hurts and exercise.pk not in self.stopped and not violations(exercise, self.limits)


def ways_out(prompts: Sequence[Prompt]) -> dict[str, WaysOut]:
    """Return by the prompt's id what can be done instead; `prompts` are swaps with `client__user` and practice read.

    For pain: substitutes that do not load the site that hurts. For what no load fits any more: variants in the
    direction asked for, then substitutes, of which a harder one must be one that can be loaded.
    """
    swaps = [prompt for prompt in prompts if prompt.kind == "swap"]
    if not swaps:
        return {}
    clients = {prompt.client_id: prompt.client for prompt in swaps}
    of_client = _open_to(list(clients.values()), swaps)
    found: dict[str, WaysOut] = {}
    for practice in {client.practice for client in clients.values()}:
        own = [prompt for prompt in swaps if prompt.client.practice_id == practice.pk]
        found |= _in_practice(practice, own, of_client)
    return found


def _in_practice(practice: Practice, prompts: Sequence[Prompt], of_client: dict[int, _Open]) -> dict[str, WaysOut]:
    exercises = list(Exercise.objects.filter(pk__in={prompt.proposal["exercise"] for prompt in prompts}))
    likes = substitutes_for_many(exercises, practice, exercises_of(practice).prefetch_related("limits"))
    links = _variants(exercises, practice)
    found = {}
    for prompt in prompts:
        cause = prompt.proposal.get("cause", "pain")
        exercise, client = prompt.proposal["exercise"], of_client[prompt.client_id]
        site = prompt.proposal.get("site", "")
        variants = [row for row in links[exercise, cause] if client.allows(row, "")]
        known = {row.pk for row in variants}
        others = [
            one.exercise
            for one in likes.get(exercise, [])
            if one.exercise.pk not in known and _helps(one, cause) and client.allows(one.exercise, site)
        ]
        found[str(prompt.pk)] = WaysOut(_named(variants), _named(others[: MOST_SUBSTITUTES - len(variants)]))
    return found


def _helps(one: Substitute, cause: str) -> bool:
    """Where there was no load left to add, only what can be loaded is a way on."""
    bare = (Equipment.Kind.NONE, Equipment.Kind.BODY, Equipment.Kind.ASSISTED)
    return cause != "harder" or one.exercise.equipment.kind not in bare


def _named(rows: Sequence[Exercise]) -> tuple[Way, ...]:
    return tuple((row.pk, row.name) for row in rows)


def _variants(exercises: Sequence[Exercise], practice: Practice) -> dict[tuple[int, str], list[Exercise]]:
    """Return the listed variants by exercise and kind, in the library's order."""
    seen = Q(other__practice=None) | Q(other__practice=practice)
    links = ExerciseLink.objects.filter(seen, exercise__in=exercises, other__archived_at=None)
    found: dict[tuple[int, str], list[Exercise]] = defaultdict(list)
    kinds = (ExerciseLink.Kind.EASIER, ExerciseLink.Kind.HARDER)
    rows = links.filter(kind__in=kinds).select_related("other").prefetch_related("other__limits")
    for link in rows.order_by("exercise", "position", "pk"):
        found[link.exercise_id, link.kind].append(link.other)
    return found


def _open_to(clients: Sequence[Client], prompts: Sequence[Prompt]) -> dict[int, _Open]:
    equipment: dict[int, set[int]] = defaultdict(set)
    for client, item in ClientEquipment.objects.filter(client__in=clients).values_list("client", "equipment"):
        equipment[client].add(item)
    # Of clients in different time zones the earliest day: a limit that ends today still holds for all of them.
    limits = limits_by_client(clients, min(client.user.today() for client in clients))
    stopped = _stopped(clients, prompts)
    return {
        one.pk: _Open(frozenset(equipment[one.pk]), limits.get(one.pk, Limits()), frozenset(stopped[one.pk]))
        for one in clients
    }


def _stopped(clients: Sequence[Client], prompts: Sequence[Prompt]) -> dict[int, set[int]]:
    """What pain stopped in these weeks: one of them is no way out of another."""
    since = min(prompt.week for prompt in prompts) - WEEK
    found: dict[int, set[int]] = defaultdict(set)
    rows = Prompt.objects.filter(client__in=clients, kind="swap", week__gte=since)
    for client, proposal in rows.order_by().values_list("client", "proposal"):
        if topic_of("swap", proposal) == "swap":
            found[client].add(proposal["exercise"])
    return found
