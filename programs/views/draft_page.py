"""What the page of a draft shows of its result, names looked up."""

from dataclasses import dataclass
from typing import Any

from django.utils.dates import WEEKDAYS

from periodization.duration import whole_minutes
from periodization.targets import TargetRange, standing
from programs.document.pairs import LETTERS
from programs.forms.draft_weights import MEANINGS
from programs.models import DraftRun
from programs.sentences import in_words
from programs.services.draft_relax import can_apply
from programs.services.draft_words import Names, NeedLine, demand_words, names_for, need_lines, relaxation_words

# How many reasons stand open beside an exercise; the others fold.
OPEN_NEEDS = 2


@dataclass(frozen=True, slots=True)
class SlotView:
    """`share` is what the next best would have cost, in per cent of the week's points."""

    label: str
    exercise: int
    name: str
    sets: int
    reps: tuple[int, int]
    rir: tuple[int, int]
    rest_s: int
    needs: list[NeedLine]
    more_needs: list[NeedLine]
    next_name: str
    next_sets: int
    next_points: float
    next_share: float


@dataclass(frozen=True, slots=True)
class DayView:
    number: int
    weekday: str
    minutes: int
    asked: int
    slots: list[SlotView]
    sets: int


@dataclass(frozen=True, slots=True)
class GroupView:
    name: str
    sets: float
    floor: float
    ceiling: float
    standing: str
    heads: list[dict[str, Any]]


def result_context(run: DraftRun) -> dict[str, Any]:
    """Return the template's values of a drafted week (six queries)."""
    result = run.result
    slots = [slot for day in result["days"] for slot in day["slots"]]
    named = {slot["exercise"] for slot in slots} | {s["next_best"]["exercise"] for s in slots if s["next_best"]}
    names = names_for(run, named)
    return {
        "days": [_day(run, number, day, names) for number, day in enumerate(result["days"])],
        "groups": [_group(group, result["heads"], names) for group in result["groups"]],
        "points": result["points"],
        "bound": result["bound"],
        "gap": 100 * result["gap"],
        "terms": _terms(result["terms"]),
        "notes": [in_words(note["code"], note["params"]) for note in result["notes"]],
    }


def clash_context(run: DraftRun) -> dict[str, Any]:
    """Return the template's values of a clash (six queries)."""
    names = names_for(run)
    relaxations = [
        {"number": number, "text": relaxation_words(one, names), "can_apply": can_apply(one)}
        for number, one in enumerate(run.result["relaxations"])
    ]
    return {
        "demands": [demand_words(one, names) for one in run.result["demands"]],
        "proven": run.result["proven"],
        "relaxations": relaxations,
    }


def _day(run: DraftRun, number: int, day: dict[str, Any], names: Names) -> DayView:
    seen: dict[str, int] = {}
    slots = []
    for slot in day["slots"]:
        letter = slot["pair"]
        seen[letter] = seen.get(letter, 0) + 1
        label = f"{letter}{seen[letter]}" if letter in LETTERS and letter else ""
        slots.append(_slot(label, slot, run.result["points"], names))
    asked = run.ask["days"][number]["minutes"]
    weekday = str(WEEKDAYS[day["weekday"]])
    return DayView(number + 1, weekday, whole_minutes(day["minutes"]), asked, slots, sum(slot.sets for slot in slots))


def _slot(label: str, slot: dict[str, Any], points: float, names: Names) -> SlotView:
    needs = need_lines(slot["needs"], names)
    best = slot["next_best"] or {"exercise": "", "sets": 0, "points": 0.0}
    return SlotView(
        label=label,
        exercise=slot["exercise"],
        name=names.of("exercise", slot["exercise"]),
        sets=slot["sets"],
        reps=tuple(slot["reps"]),
        rir=tuple(slot["rir"]),
        rest_s=slot["rest_s"],
        needs=needs[:OPEN_NEEDS],
        more_needs=needs[OPEN_NEEDS:],
        next_name=names.of("exercise", best["exercise"]),
        next_sets=best["sets"],
        next_points=best["points"],
        next_share=100 * best["points"] / points if points > 0 else 0.0,
    )


def _group(group: dict[str, Any], heads: list[dict[str, Any]], names: Names) -> GroupView:
    target = TargetRange(group["floor"], group["ceiling"], "coach")
    own = [{**head, "name": names.of("head", head["slug"])} for head in heads if head["group"] == group["slug"]]
    name = names.of("group", group["slug"])
    return GroupView(name, group["sets"], target.floor, target.ceiling, standing(group["sets"], target), own)


def _terms(terms: list[list[Any]]) -> list[tuple[Any, float]]:
    """Return the week's points by what earns or costs them, as the form names it."""
    sums: dict[str, float] = {}
    for kind, _subject, points in terms:
        sums[kind] = sums.get(kind, 0.0) + points
    named = [(name, label) for _title, rows in MEANINGS for name, label, _meaning in rows]
    return [(label, sums[name]) for name, label in named if name in sums]
