"""What the library's forms let one choose from: muscles, joint actions, equipment."""

from collections import defaultdict
from typing import Any

from django.utils.text import capfirst
from django.utils.translation import gettext as _

from programs.models import Head, JointAction, Limit, MuscleGroup

Choices = list[tuple[Any, Any]]


def head_label(head: Head) -> str:
    """Name a head with the lay name of its muscle, so that it can be found by either."""
    return f"{capfirst(str(head))} ({head.muscle.lay_name})"


def head_choices() -> Choices:
    """Return every head by id, under the name of its group; heads without a weekly target come last."""
    grouped: dict[str, Choices] = defaultdict(list)
    for head in _heads():
        grouped[_group_name(head.group)].append((head.pk, head_label(head)))
    return list(grouped.items())


def muscle_choices() -> Choices:
    """Return `group:slug` for a whole group and `head:slug` for a part of it, under the group's name."""
    grouped: dict[str, Choices] = {}
    for head in _heads():
        name = _group_name(head.group)
        if name not in grouped:
            whole = (f"group:{head.group.slug}", _("%(group)s, any part") % {"group": name}) if head.group else None
            grouped[name] = [whole] if whole else []
        grouped[name].append((f"head:{head.slug}", head_label(head)))
    return list(grouped.items())


def action_choices(value: str = "slug") -> Choices:
    """Return what the joints do, by `value` (slug or pk), under its joint."""
    grouped: dict[str, Choices] = defaultdict(list)
    for action in JointAction.objects.all():
        label = f"{capfirst(action.name)} ({action.lay_name})"
        grouped[capfirst(action.joint)].append((getattr(action, value), label))
    return list(grouped.items())


def limit_choices(value: str = "pk") -> Choices:
    """Return joint stresses and positions by `value` (slug or pk), under the part of the body they concern."""
    grouped: dict[str, Choices] = defaultdict(list)
    for limit in Limit.objects.all():
        grouped[capfirst(limit.get_site_display())].append((getattr(limit, value), limit.sentence))
    return list(grouped.items())


def _heads() -> list[Head]:
    heads = Head.objects.select_related("group", "muscle")
    return sorted(heads, key=lambda head: (head.group.position if head.group else 1_000, head.position))


def _group_name(group: MuscleGroup | None) -> str:
    return capfirst(group.name) if group else _("No weekly target")


def position_choices() -> Choices:
    """Return every joint action by id as the position that it leads to ("hip flexion")."""
    return [(action.pk, capfirst(str(action))) for action in JointAction.objects.all()]
