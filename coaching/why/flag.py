"""Why a flag stands: its figures, what they were compared with, and the entries the rule looked at."""

from typing import Any
from uuid import UUID

from django.http import Http404
from django.shortcuts import get_object_or_404
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from coaching.figures import figures as figure_words
from coaching.figures import site_name
from coaching.models import FlagRow, WeekSummary
from coaching.reads.named import exercises_of
from coaching.why.answer import Answer, Figure
from coaching.why.flag_entries import entries
from coaching.why.links import Reader
from coaching.why.seen import seen_in
from periodization.flags import RULES, Flag
from periodization.rules import Rule
from programs.sentences import Words, in_words, words_for


def flag(reader: Reader, key: str) -> Answer:
    """Answer for a flag of the client, by its id."""
    try:
        pk = UUID(key)
    except ValueError as error:
        raise Http404 from error
    row = get_object_or_404(FlagRow, client=reader.client, pk=pk)
    summary = get_object_or_404(WeekSummary, client=reader.client, week=row.week)
    seen = seen_in(reader, summary)
    words = words_for(reader.unit, {*exercises_of(row), *_exercises_in(seen.facts)})
    found = [one for one in seen.flags if _key(one) == (row.rule_id, row.subject_kind, row.subject)]
    same = [one for one in found if one.code == row.code] or found
    subject = _subject(row, words)
    source = next((rule.rule.source for rule in RULES if rule.rule.id == row.rule_id), "")
    sentence = in_words(row.code, row.params, words)
    return Answer(
        title=f"{subject}: {sentence}" if subject else sentence,
        lead=[in_words(row.clears_code, row.clears_params, words)],
        figures=_figures(row, same[0] if same else None, words),
        tables=entries(reader, row, seen, words),
        rules=[Rule(row.rule_id, row.rule_version, source)],
        method="flags",
        thresholds=[
            *figure_words(row.rule_id, _named(row), words),
            *figure_words(row.rule_id, row.inputs["thresholds"], words),
        ],
        uncertainty=_(
            "A flag is a sign and no finding: each rule is wrong in both directions at times; the methods page says "
            "how often "
            "in simulated clients whose true state is known."
        ),
    )


def _named(row: FlagRow) -> dict[str, Any]:
    """Return what the flag kept beside its numbers: where, and what is watched."""
    return {name: value for name, value in row.inputs["values"].items() if not isinstance(value, int | float) and value}


def _key(one: Flag) -> tuple[str, str, str]:
    return one.rule_id, one.subject_kind, one.subject


def _exercises_in(history: Any) -> set[str]:
    return {one.exercise_id for one in history.exposures}


def _subject(row: FlagRow, words: Words) -> str:
    if row.subject_kind == "site":
        return str(capfirst(site_name(row.subject)))
    if row.subject_kind == "exercise":
        return words.exercises.get(row.subject, row.subject)
    return words.groups.get(row.subject, row.subject) if row.subject else ""


def _figures(row: FlagRow, again: Flag | None, words: Words) -> list[Figure]:
    """Return the figures compared, then those that the sentence says and that are not among them."""
    kept: dict[str, Any] = dict(row.inputs["values"])
    now: dict[str, Any] = dict(again.values) if again else {}
    labels = dict(zip(kept, figure_words(row.rule_id, kept, words), strict=True))
    found = [
        Figure(name, labels[name][0], value, now.get(name), digits=3, text=labels[name][1])
        for name, value in kept.items()
        if isinstance(value, int | float)
    ]
    for name, value in row.params.items():
        if isinstance(value, int | float) and not any(one.key == name for one in found):
            label = _said().get(name, name)
            found.append(Figure(name, label, value, again.params.get(name) if again else None))  # type: ignore[arg-type]
    return found


def _said() -> dict[str, str]:
    return {
        "count": _("entries counted"),
        "percent": _("under what was expected, percent"),
        "sessions": _("sessions"),
        "exposures": _("exercises done"),
        "drop": _("fewer repetitions in reserve"),
        "under": _("sets under the prescribed repetitions"),
        "sets": _("sets"),
        "floor": _("lower end of what was asked"),
        "ceiling": _("upper end"),
        "mean": _("mean of the recent check-ins"),
        "median": _("usual"),
        "days": _("days looked at"),
        "score": _("pain, 0 to 10"),
    }
