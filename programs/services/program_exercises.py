"""Find the exercise for a slot: by words, or as a replacement for another one."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.db.models import Case, Exists, IntegerField, OuterRef, Q, QuerySet, Value, When
from django.db.models.functions import Lower, StrIndex
from django.utils.translation import gettext as _

from programs.models import Exercise, ExerciseLink, HeadCredit
from programs.services.tally_facts import ExerciseFacts, facts_of, muscle_words

MOST = 12
# A row gives the lats 0.75 and no head more, yet who looks for the lats wants to see it.
NEARLY_DIRECT = 0.75


@dataclass(frozen=True, slots=True)
class Choice:
    """An exercise on offer. `why` says how it stands to the one it would replace; empty when it replaces none."""

    fact: ExerciseFacts
    why: str = ""


def usable_by(user: Any) -> QuerySet[Exercise]:
    return Exercise.objects.visible_to(user).filter(archived_at=None)


def search_exercises(user: Any, words: str, most: int = MOST) -> list[Choice]:
    """Return exercises of which every word names something: itself, its equipment, a muscle, head or group it trains
    directly or nearly so. Names that begin with the words come first, then those that have them early: who types
    "bench" means a press rather than what is held on a bench."""
    rows = usable_by(user)
    for word in words.split()[:6]:
        direct = HeadCredit.objects.filter(exercise=OuterRef("pk"), credit__gte=NEARLY_DIRECT).filter(
            Q(head__name__icontains=word)
            | Q(head__muscle__name__icontains=word)
            | Q(head__muscle__lay_name__icontains=word)
            | Q(head__group__name__icontains=word)
        )
        rows = rows.filter(Q(name__icontains=word) | Q(equipment__name__icontains=word) | Exists(direct))
    text = " ".join(words.split())
    rank = Case(
        When(name__istartswith=text, then=Value(0)),
        When(name__icontains=text, then=Value(1)),
        default=Value(2),
        output_field=IntegerField(),
    )
    early = StrIndex(Lower("name"), Value(text.lower()))
    return [Choice(fact) for fact in facts_of(rows.order_by(rank, early, "name", "pk")[:most]).values()]


def replacements_for(user: Any, current: ExerciseFacts, words: str, most: int = MOST) -> list[Choice]:
    """Return exercises for the place of `current`: its substitutes first, then those that load the same heads; with
    words, whatever they find. Each says what it does otherwise."""
    if words.strip():
        found = search_exercises(user, words, most + 1)
        return [Choice(one.fact, compare(current, one.fact)) for one in found if one.fact.pk != current.pk][:most]
    links = ExerciseLink.objects.filter(exercise=current.pk, kind=ExerciseLink.Kind.SUBSTITUTE).order_by("position")
    listed = {other: number for number, other in enumerate(links.values_list("other", flat=True))}
    same = HeadCredit.objects.filter(
        exercise=OuterRef("pk"), credit__gte=NEARLY_DIRECT, head__slug__in=list(current.main)
    )
    rows = usable_by(user).filter(Q(pk__in=listed) | Exists(same)).exclude(pk=current.pk)
    facts = list(facts_of(rows).values())
    facts.sort(key=lambda fact: (listed.get(fact.pk, len(listed)), -likeness(current.credits, fact.credits), fact.name))
    return [Choice(fact, compare(current, fact, listed=fact.pk in listed)) for fact in facts[:most]]


def likeness(one: Mapping[str, float], other: Mapping[str, float]) -> float:
    """Return how alike two sets of credits are, 0 to 1: what they share of what either of them gives."""
    heads = one.keys() | other.keys()
    either = sum(max(one.get(head, 0), other.get(head, 0)) for head in heads)
    shared = sum(min(one.get(head, 0), other.get(head, 0)) for head in heads)
    return shared / either if either else 0.0


def compare(current: ExerciseFacts, other: ExerciseFacts, *, listed: bool = False) -> str:
    """Say in words which main heads the other exercise has that this one has not, and the reverse."""
    less = muscle_words(names for slug, names in current.main.items() if slug not in other.main)
    more = muscle_words(names for slug, names in other.main.items() if slug not in current.main)
    parts = [_("listed substitute")] if listed else []
    if not less and not more:
        parts.append(_("same heads"))
    if less:
        parts.append(_("without %(heads)s") % {"heads": less})
    if more:
        parts.append(_("adds %(heads)s") % {"heads": more})
    return "; ".join(parts)
