"""What a coach may sift the week by: the practice's coaches, for an owner, and the coach's own saved views."""

from dataclasses import dataclass

from django.db.models import F, FilteredRelation, Q

from accounts import access
from accounts.models import Membership


@dataclass(frozen=True)
class View:
    pk: int
    name: str
    query: str


@dataclass(frozen=True)
class Sieves:
    """`coaches` (id, name) are empty for a coach, who sees only their own clients."""

    coaches: list[tuple[int, str]]
    views: list[View]


def sieves_of(membership: Membership) -> Sieves:
    """Return both in one query."""
    owner = membership.role == Membership.Role.OWNER
    colleagues = Q(access.running(on=membership.practice.today()), practice=membership.practice)
    seen = Q(pk=membership.pk) | colleagues if owner else Q(pk=membership.pk)
    rows = (
        Membership.objects.filter(seen)
        .annotate(mine=FilteredRelation("saved_views", condition=Q(saved_views__membership=membership.pk)))
        .order_by("user__name", "pk", F("mine__name").asc(nulls_last=True))
        .values_list("pk", "user__name", "user__email", "mine__pk", "mine__name", "mine__query")
    )
    coaches: dict[int, str] = {}
    views = []
    for pk, name, email, view, title, query in rows:
        coaches[pk] = name or email
        if view is not None:
            views.append(View(view, title, query))
    return Sieves(list(coaches.items()) if owner else [], views)
