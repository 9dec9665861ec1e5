"""Which muscle group an exercise leads with: the one that its sets are counted to in a ramp."""

from collections.abc import Iterable

from programs.models import HeadCredit


def leading_groups(ids: Iterable[int]) -> dict[int, str]:
    """Return the slug of the group with the highest credit by exercise id (one query).

    Among equals the first in the order of the anatomy; an exercise that no group gets anything of is left out.
    """
    rows = HeadCredit.objects.filter(exercise__in=set(ids), head__group__isnull=False)
    leads: dict[int, str] = {}
    for exercise, group in rows.order_by(
        "exercise", "-credit", "head__group__position", "head__group__slug"
    ).values_list("exercise", "head__group__slug"):
        leads.setdefault(exercise, group)
    return leads
