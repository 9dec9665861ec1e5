"""Find exercises by what they train, with what, and how they are graded."""

from collections.abc import Mapping
from typing import Any

from django.db.models import Exists, F, OuterRef, Prefetch, Q, QuerySet, Subquery

from accounts.models import Practice
from programs.models import GRADE_NAMES, Exercise, HeadCredit
from programs.services.grades import with_grades

# From this credit a set counts as direct.
DIRECT = 1.0


def exercise_search(exercises: QuerySet[Exercise], wanted: Mapping[str, Any], practice: Practice | None) -> QuerySet:
    """Narrow and order `exercises` (already limited to what the user may see) by the filters of ExerciseFilterForm.

    Rows carry the practice's grades (`activation`, ...), their credits with heads, and `share`: the highest credit for
    the muscle asked for. Three queries for a page of rows, whatever its length.
    """
    rows = with_grades(exercises, practice).select_related("equipment")
    rows = _narrow(rows, wanted)
    credits = HeadCredit.objects.filter(exercise=OuterRef("pk"))
    muscle = wanted.get("muscle")
    if muscle:
        credits = credits.filter(_trains(muscle))
        shares = credits.order_by("-credit").values("credit")[:1]
        rows = rows.annotate(share=Subquery(shares)).filter(share__gt=0)
        if wanted.get("counted") == "direct":
            rows = rows.filter(share__gte=DIRECT)
    if wanted.get("long"):
        rows = rows.filter(Exists(credits.filter(loaded_long=True)))
    heads = HeadCredit.objects.select_related("head__muscle", "head__group")
    return rows.order_by(*_order(wanted)).prefetch_related(Prefetch("credits", queryset=heads))


def _narrow(rows: QuerySet[Exercise], wanted: Mapping[str, Any]) -> QuerySet[Exercise]:
    show = wanted.get("show")
    rows = rows.filter(archived_at__isnull=show != "archived")
    if show:
        rows = rows.exclude(practice=None)
    for word in wanted.get("q", "").split():
        rows = rows.filter(Q(name__icontains=word) | Q(equipment__name__icontains=word) | Exists(_named(word)))
    if action := wanted.get("action"):
        rows = rows.filter(
            Exists(Exercise.actions.through.objects.filter(exercise=OuterRef("pk"), jointaction__slug=action))
        )
    columns = {"equipment": "equipment", "sides": "laterality", "load_kind": "load_kind"}
    columns |= {name: f"{name}__gte" for name in GRADE_NAMES}
    return rows.filter(**{column: wanted[name] for name, column in columns.items() if name in wanted})


def _named(word: str) -> QuerySet[HeadCredit]:
    """Return the credits of the exercise for what `word` names: a head, a muscle, its lay name, or a group."""
    named = Q()
    for column in ("head__name", "head__muscle__name", "head__muscle__lay_name", "head__group__name"):
        named |= Q(**{f"{column}__icontains": word})
    return HeadCredit.objects.filter(named, exercise=OuterRef("pk"), credit__gte=DIRECT)


def _trains(muscle: str) -> Q:
    """Read `group:slug` or `head:slug`."""
    kind, _, slug = muscle.partition(":")
    return Q(head__slug=slug) if kind == "head" else Q(head__group__slug=slug)


def _order(wanted: Mapping[str, Any]) -> list[Any]:
    sort = wanted.get("sort")
    if sort in GRADE_NAMES:
        return [F(sort).desc(), "name", "pk"]
    if sort == "share" and wanted.get("muscle"):
        return [F("share").desc(), "name", "pk"]
    return ["name", "pk"]
