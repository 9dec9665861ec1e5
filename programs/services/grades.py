"""The four grades a coach chooses by, as a practice reads them: its own where it gave one, else the library's."""

from collections.abc import Mapping
from typing import Any

from django.db.models import F, OuterRef, QuerySet, Subquery
from django.db.models.functions import Coalesce
from django.utils.translation import gettext_lazy as _

from accounts.models import Practice
from programs.models import GRADE_NAMES, Exercise, GradeOverride

TITLES: Mapping[str, Any] = {
    "activation": _("Activation"),
    "long_length": _("Load at long length"),
    "loadability": _("Loadability"),
    "near_failure": _("Safety near failure"),
}
MEANINGS: Mapping[str, Any] = {
    "activation": _("how directly the target is loaded"),
    "long_length": _("how much of the load falls while the target is long"),
    "loadability": _("how small and easy the steps up are"),
    "near_failure": _("how safely a set ends near failure"),
}
WORDS: Mapping[int, Any] = {
    1: _("very low"),
    2: _("low"),
    3: _("middling"),
    4: _("high"),
    5: _("very high"),
}


def with_grades(exercises: QuerySet[Exercise], practice: Practice | None) -> QuerySet[Exercise]:
    """Annotate `activation`, `long_length`, `loadability` and `near_failure` (1-5) as `practice` grades them."""
    own = GradeOverride.objects.filter(practice=practice, exercise=OuterRef("pk"))
    return exercises.annotate(
        **{
            name: Coalesce(Subquery(own.filter(grade=name).values("value")[:1]), F(f"grade_{name}"))
            for name in GRADE_NAMES
        }
    )
