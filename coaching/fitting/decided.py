"""What was decided when a program was given to many: the records of each client's plan, not worked out anew."""

from dataclasses import dataclass

from accounts.models import User
from programs.models import Adaptation, Assignment, Fitting
from programs.services.adaptation_lines import Line, said


@dataclass(frozen=True, slots=True)
class DecidedRow:
    """One client's plan. `starts` are the starting loads, which are many and alike; `lines` all other differences."""

    assignment: Assignment
    lines: list[Line]
    starts: list[Line]


def decided_rows(fitting: Fitting, user: User) -> list[DecidedRow]:
    """Return the plans that an assigned fitting made, of the clients whom `user` may see now (at most six queries)."""
    plans = list(
        Assignment.objects.visible_to(user)
        .filter(fitting=fitting)
        .select_related("client__user")
        .order_by("client__user__name", "pk")
    )
    records = Adaptation.objects.filter(assignment__in=plans).select_related("created_by", "undone_by")
    unit_of = {plan.pk: plan.client.user.load_unit for plan in plans}
    found: dict[int, list[Line]] = {plan.pk: [] for plan in plans}
    for unit in sorted(set(unit_of.values())):
        for one in said([row for row in records if unit_of[row.assignment_id] == unit], unit):
            found[one.row.assignment_id].append(one)
    start = Adaptation.Kind.START
    return [
        DecidedRow(
            plan,
            [one for one in found[plan.pk] if one.row.kind != start],
            [one for one in found[plan.pk] if one.row.kind == start],
        )
        for plan in plans
    ]
