"""What the draft's form begins with: the usual week, a client's values, or an earlier request."""

from collections.abc import Iterable
from typing import Any

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from accounts.models import Client
from periodization.targets import standard_priority, target_range
from programs.document.ranges import show_range
from programs.forms.draft_targets import LEFT_OUT
from programs.models import ClientEquipment
from programs.services.client_limits import limits_of_client
from programs.services.draft_ask import Ask, AskedTarget
from programs.services.targets import priority_for

# Chosen: three days of an hour, with days off between them.
USUAL_DAYS = {0: 60, 2: 60, 4: 60}


def usual_initial(groups: Iterable[str]) -> dict[str, Any]:
    day = date_format(timezone.localdate(), _("j M"))
    return {
        "name": _("Drafted week, %(day)s") % {"day": day},
        "status": "intermediate",
        "slots_per_day": 10,
        "sets": "2–4",
        "session_cap": 10,
        "equipment_choice": "all",
        "seconds": 20,
        "seed": 0,
        **{f"minutes-{day}": minutes for day, minutes in USUAL_DAYS.items()},
        **{f"priority-{slug}": standard_priority(slug) for slug in groups},
    }


def client_initial(client: Client, groups: Iterable[str]) -> dict[str, Any]:
    """Return the usual week with what is known of a client: status, minutes, priorities and own ranges, equipment and
    limits (two queries)."""
    slugs = list(groups)
    limits = limits_of_client(client, client.user.today())
    equipment = list(ClientEquipment.objects.filter(client=client).values_list("equipment", flat=True))
    minutes = client.minutes_per_session
    values = {
        **usual_initial(slugs),
        **({f"minutes-{day}": minutes for day in USUAL_DAYS} if minutes else {}),
        "name": (_("Week for %(client)s") % {"client": client})[:120],
        "status": client.training_status,
        "equipment_choice": "these" if equipment else "all",
        "equipment": equipment,
        "limits": sorted(limits.slugs),
        "avoid": sorted(limits.exercises),
    }
    for slug in slugs:
        values[f"priority-{slug}"] = priority_for(client, slug)
        if own := client.target_overrides.get(slug):
            values[f"floor-{slug}"], values[f"ceiling-{slug}"] = (_plain(end) for end in own)
    return values


def ask_initial(ask: Ask, name: str, groups: Iterable[str]) -> dict[str, Any]:
    """Return the values from which this request was made."""
    values: dict[str, Any] = {
        "name": name,
        "status": ask.status,
        "slots_per_day": ask.slots_per_day,
        "sets": show_range(ask.sets),
        "session_cap": _plain(ask.session_cap),
        "pairs": ask.pairs,
        "spacing_must": ask.spacing_must,
        "equipment_choice": "all" if ask.equipment is None else "these",
        "equipment": list(ask.equipment or ()),
        "limits": list(ask.limits),
        "actions": list(ask.actions),
        "seconds": ask.seconds,
        "seed": ask.seed,
        "include": list(ask.include),
        "avoid": list(ask.avoid),
        **{f"minutes-{day.weekday}": day.minutes for day in ask.days},
        **{f"weight-{weight}": _plain(value) for weight, value in ask.weights.items()},
    }
    for kind, dose in (("compound", ask.compound), ("single", ask.single)):
        if dose:
            values[f"reps_{kind}"], values[f"rir_{kind}"] = show_range(dose.reps), show_range(dose.rir)
    for slug in groups:
        values |= _row(ask, slug, ask.targets.get(slug))
    return values


def _row(ask: Ask, slug: str, target: AskedTarget | None) -> dict[str, Any]:
    if target is None:
        return {f"priority-{slug}": LEFT_OUT}
    usual = target_range(ask.status, target.priority, slug)
    row: dict[str, Any] = {
        f"priority-{slug}": target.priority,
        f"floor_must-{slug}": target.floor_must,
        f"heads_must-{slug}": target.heads_must,
        f"long_must-{slug}": target.long_must,
        f"exercises-{slug}": _counts(target),
    }
    if (target.floor, target.ceiling) != (usual.floor, usual.ceiling):
        row |= {f"floor-{slug}": _plain(target.floor), f"ceiling-{slug}": _plain(target.ceiling)}
    return row


def _counts(target: AskedTarget) -> str:
    shown = [show_range(count) for count in target.exercises]
    return shown[0] if len(set(shown)) == 1 else ", ".join(shown)


def _plain(value: float) -> float | int:
    return int(value) if value == int(value) else value
