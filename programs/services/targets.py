"""How many sets a week each muscle group of one client should get: the coach's own range, or the default."""

from collections.abc import Iterable, Mapping
from datetime import datetime, timedelta

from django.db import transaction
from django.utils.translation import gettext_lazy as _

from accounts.models import Client
from periodization.targets import Priority, TargetRange, standard_priority, target_range
from programs.models import Assignment, Program
from programs.signals import plan_changed

PRIORITIES = [
    ("incidental", _("trained along")),
    ("maintain", _("maintain")),
    ("normal", _("normal")),
    ("focus", _("focus")),
]


def target_ranges_for(client: Client, groups: Iterable[str]) -> dict[str, TargetRange]:
    """Return the weekly range of fractional hard sets for each group slug (no query)."""
    overrides = {slug: (float(ends[0]), float(ends[1])) for slug, ends in client.target_overrides.items()}
    return {slug: target_range(client.training_status, priority_for(client, slug), slug, overrides) for slug in groups}


def priority_for(client: Client, group: str) -> Priority:
    """Return what the group (its slug) is to the client: the coach's word, or the standard."""
    return client.priorities.get(group) or standard_priority(group)


def default_ranges(training_status: str, groups: Iterable[str]) -> dict[str, TargetRange]:
    """Return the ranges of someone of this training status without priorities: what a program is judged by."""
    return {slug: target_range(training_status, standard_priority(slug), slug) for slug in groups}


# Beside the training statuses: by what a draft was asked for.
ASKED = "asked"


def judged_by(program: Program) -> str:
    """Return by what a program is judged: a training status, or ASKED."""
    return ASKED if program.judge_by_asked and program.asked_ranges else program.written_for


def program_ranges(program: Program, by: str, groups: Iterable[str]) -> dict[str, TargetRange]:
    """Return the ranges of a program by group slug, judged `by` a training status or ASKED (no query).

    A group that the draft was not asked for has no floor then, and keeps the usual ceiling: nobody wanted sets for it,
    and too many are still too many.
    """
    if by != ASKED:
        return default_ranges(by, groups)
    usual = default_ranges(program.written_for, groups)
    asked = {slug: (float(one[0]), float(one[1])) for slug, one in program.asked_ranges.items()}
    return {
        slug: TargetRange(*asked[slug], "coach") if slug in asked else TargetRange(0.0, one.ceiling, one.source)
        for slug, one in usual.items()
    }


@transaction.atomic
def client_targets_set(
    *,
    client: Client,
    training_status: str,
    priorities: Mapping[str, str],
    overrides: Mapping[str, tuple[float, float]],
    now: datetime,
) -> Client:
    """Save the client's training status, priorities (the standard one of a group is not kept) and own ranges.

    Every week is judged by them, earlier ones too (docs/decisions/0011), when the worker comes to it.
    """
    client.training_status = training_status
    client.priorities = {slug: one for slug, one in priorities.items() if one != standard_priority(slug)}
    client.target_overrides = {slug: list(ends) for slug, ends in overrides.items()}
    client.save(update_fields=["training_status", "priorities", "target_overrides"])
    today = client.user.day_of(now)
    plan_changed.send(sender=Assignment, client_id=client.pk, since=today - timedelta(days=today.weekday()))
    return client
