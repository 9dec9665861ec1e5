"""What to do instead: named substitutes first, then exercises that train nearly the same."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from math import sqrt

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from accounts.models import Practice
from programs.models import Equipment, Exercise, ExerciseLink, HeadCredit
from programs.services.exercise_visible import exercises_of

# Below this the two train different things, and calling one a substitute for the other would mislead.
LEAST_LIKENESS = 0.6
# Of the likeness, how much is about being loaded while long; the rest is about which heads get the sets. A judgement.
LONG_SHARE = 0.2

Vector = dict[int, float]


@dataclass(frozen=True, slots=True)
class Substitute:
    """`likeness` is 0..1; `reason` says in words why it stands where it stands."""

    exercise: Exercise
    listed: bool
    likeness: float
    reason: str


def cosine(a: Vector, b: Vector) -> float:
    """Return how alike two vectors of credits are, 0..1; 1 when both are empty, 0 when only one is."""
    if not a or not b:
        return float(not a and not b)
    dot = sum(value * b[key] for key, value in a.items() if key in b)
    return dot / (sqrt(sum(v * v for v in a.values())) * sqrt(sum(v * v for v in b.values())))


def substitutes_for(
    exercise: Exercise,
    practice: Practice | None,
    equipment: Iterable[Equipment | int] | None = None,
    limit: int = 12,
) -> list[Substitute]:
    """Return what a practice may do instead of `exercise`, best first.

    `equipment` limits the answer to what is at hand (rows or ids); None means anything. Does not check that the caller
    may see the practice. Three queries, whatever the size of the library.
    """
    candidates = exercises_of(practice).exclude(pk=exercise.pk).select_related("equipment")
    if equipment is not None:
        candidates = candidates.filter(equipment__in=list(equipment))
    rows = {row.pk: row for row in candidates}
    sets, long, names = _credits([*rows, exercise.pk])
    listed = _listed(exercise)
    found = []
    for pk, row in rows.items():
        alike = (1 - LONG_SHARE) * cosine(sets[exercise.pk], sets[pk]) + LONG_SHARE * cosine(
            long[exercise.pk], long[pk]
        )
        fits = alike >= LEAST_LIKENESS and row.rep_unit == exercise.rep_unit
        if pk in listed or fits:
            reason = _reason(pk in listed, sets[exercise.pk], sets[pk], long[exercise.pk], long[pk], names)
            found.append(Substitute(row, pk in listed, round(alike, 3), reason))
    found.sort(key=lambda s: (listed.get(s.exercise.pk, len(listed)), -s.likeness, s.exercise.name))
    return found[:limit]


def _credits(ids: list[int]) -> tuple[dict[int, Vector], dict[int, Vector], dict[int, str]]:
    """Read every credit of the exercises: all, those loaded while long, and the heads' names by id."""
    sets: dict[int, Vector] = defaultdict(dict)
    long: dict[int, Vector] = defaultdict(dict)
    names: dict[int, str] = {}
    for row in HeadCredit.objects.filter(exercise__in=ids).select_related("head__muscle"):
        sets[row.exercise_id][row.head_id] = row.credit
        names[row.head_id] = str(row.head)
        if row.loaded_long:
            long[row.exercise_id][row.head_id] = row.credit
    return sets, long, names


def _listed(exercise: Exercise) -> dict[int, int]:
    """Return the named substitutes with their rank."""
    links = ExerciseLink.objects.filter(exercise=exercise, kind=ExerciseLink.Kind.SUBSTITUTE).order_by("position")
    return {link.other_id: rank for rank, link in enumerate(links)}


def _reason(listed: bool, mine: Vector, other: Vector, mine_long: Vector, other_long: Vector, names: dict) -> str:
    shared = [h for h in sorted(mine, key=lambda h: -mine[h]) if h in other and mine[h] > 0.5 and other[h] > 0.5]
    lost = [h for h in mine if mine[h] > 0.5 and other.get(h, 0) <= 0.5]
    parts = [_("named as a substitute")] if listed else []
    if shared:
        parts.append(_("trains %(heads)s directly as well") % {"heads": _some(shared, names)})
    if lost:
        parts.append(_("gives less to %(heads)s") % {"heads": _some(lost, names)})
    if kept := [h for h in mine_long if h in other_long]:
        parts.append(_("also loads %(heads)s while long") % {"heads": _some(kept, names)})
    if dropped := [h for h in mine_long if h in other and h not in other_long]:
        parts.append(_("does not load %(heads)s while long") % {"heads": _some(dropped, names)})
    return "; ".join(parts) or _("trains a similar mix of muscles")


def _some(heads: list[int], names: dict[int, str], most: int = 2) -> str:
    """Name the first heads, and count the rest."""
    text = " " + _("and") + " "
    rest = len(heads) - most
    if rest <= 0:
        return text.join(names[h] for h in heads)
    more = ngettext("%(count)d more", "%(count)d more", rest) % {"count": rest}
    return ", ".join(names[h] for h in heads[:most]) + text + more
