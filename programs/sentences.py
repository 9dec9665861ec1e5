"""Reasons in words: a code picks a template, the template is translated, then filled for the reader."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from django.db.models import CharField, Value
from django.db.models.functions import Cast
from django.utils.translation import gettext, ngettext

from periodization.sentences import SENTENCES, SINGULAR, with_known
from periodization.units import from_kg
from programs.models import Exercise, MuscleGroup
from programs.templatetags.loads import plain

_templates: dict[str, str] = dict(SENTENCES)
_singular: dict[str, tuple[str, str]] = dict(SINGULAR)
# A load in a template is written "{name} kg"; it is shown in the reader's unit.
LOAD = re.compile(r"\{(\w+)\} kg")
FIELD = re.compile(r"\{(\w+)\}")


@dataclass(frozen=True)
class Words:
    """The reader's unit of load, and names for what params can hold: group slugs and exercise ids."""

    unit: str = "kg"
    groups: Mapping[str, str] = field(default_factory=dict)
    exercises: Mapping[str, str] = field(default_factory=dict)
    others: Mapping[str, str] = field(default_factory=dict)

    def name(self, key: str, value: object) -> str:
        """Return a value's name where `key` says what it is, else the value in the reader's number format."""
        if isinstance(value, list | tuple):
            return ", ".join(self.name(key, one) for one in value)
        if key in ("group", "groups"):
            return self.groups.get(str(value), str(value))
        if key in ("exercise", "exercises", "other", "watched"):
            return self.exercises.get(str(value), str(value))
        if isinstance(value, int | float) and not isinstance(value, bool):
            return plain(value).replace("-", "−")
        return self.others.get(str(value), str(value))


def register(templates: Mapping[str, str], singular: Mapping[str, tuple[str, str]] | None = None) -> None:
    """Add the templates of a room above; its codes must not be taken. `singular` is as SINGULAR is."""
    if taken := {code for code in templates if _templates.get(code, templates[code]) != templates[code]}:
        raise ValueError(f"These codes have a sentence already: {', '.join(sorted(taken))}.")
    _templates.update(templates)
    _singular.update(singular or {})


def templates() -> dict[str, str]:
    """Return every registered sentence in English, by code: what a catalogue has to translate."""
    return dict(_templates)


def singulars() -> dict[str, tuple[str, str]]:
    """Return, by code, the number that decides and what is said when it is 1."""
    return dict(_singular)


def words_for(unit: str, exercise_ids: Iterable[int | str] = (), others: Mapping[str, str] | None = None) -> Words:
    """Return the words for a page in one query: every group's name, and those of the exercises it speaks of."""
    ids = {int(i) for i in exercise_ids}
    groups = MuscleGroup.objects.order_by().values_list(Value("group"), "slug", "name")
    exercises = Exercise.objects.filter(pk__in=ids).order_by()
    named = groups.union(exercises.values_list(Value("exercise"), Cast("pk", CharField()), "name"), all=True)
    found: dict[str, dict[str, str]] = {"group": {}, "exercise": {}}
    for kind, key, name in named if ids else groups:
        found[kind][key] = name
    return Words(unit, found["group"], found["exercise"], others or {})


def _translated(code: str, template: str, params: Mapping[str, Any]) -> str:
    if code not in _singular:
        return gettext(template)
    number, one = _singular[code]
    value = params.get(number, 0)
    # Plural forms are defined for whole numbers; any other, as 1.5, is said like many.
    return ngettext(one, template, value if isinstance(value, int) or value == 1 else 2)


def in_words(code: str, params: Mapping[str, Any], words: Words | None = None) -> str:
    """Return the sentence of a reason; the bare code when a newer worker wrote one that is not known here."""
    words = words or Words()
    template = _templates.get(code)
    if template is None:
        return code
    text = with_known(_translated(code, template, params), params)

    def load(match: re.Match[str]) -> str:
        value = params.get(match[1])
        if not isinstance(value, int | float):
            return match[0]
        # A load that can be made is a multiple of a quarter (31.25); an estimate claims no more than a tenth.
        digits = 2 if words.unit != "lb" and value * 4 == int(value * 4) else 1
        shown = round(from_kg(value, "lb" if words.unit == "lb" else "kg"), digits)
        return f"{plain(shown)} {words.unit}"

    text = LOAD.sub(load, text)
    return FIELD.sub(lambda match: words.name(match[1], params[match[1]]) if match[1] in params else match[0], text)
