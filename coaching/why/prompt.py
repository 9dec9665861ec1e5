"""Why a question is asked: the flags and entries it rests on, and the change to the plan slot by slot."""

from typing import Any
from uuid import UUID

from django.http import Http404
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.translation import gettext as _

from coaching.models import FlagRow, Prompt
from coaching.reads.evidence import evidence_of
from coaching.reads.named import exercises_of
from coaching.recompute.calendar import WEEK
from coaching.templatetags.coaching import kind_word, subject, threshold_word
from coaching.why.answer import Answer, Cell, Column, Figure, Table, number, shown, words
from coaching.why.body import report_table
from coaching.why.links import Reader
from coaching.why.target import set_table
from coaching.why.weeks import day_of, said
from logbook.models import Session
from periodization import deload, questions
from periodization.deload import reduced_sets
from periodization.rules import Rule
from programs.models import PlannedSession
from programs.sentences import Words, in_words, words_for


def prompt(reader: Reader, key: str) -> Answer:
    """Answer for a question about the client's plan, by its id."""
    try:
        pk = UUID(key)
    except ValueError as error:
        raise Http404 from error
    row = get_object_or_404(Prompt, client=reader.client, pk=pk)
    flags = _flags(row)
    slots = row.proposal["slots"]
    about = {pk for one in (*flags, *row.reasons) for pk in exercises_of(one)}
    words_of = words_for(reader.unit, about | {str(one["exercise"]) for one in slots})
    found = evidence_of(reader.client, [one for one in row.inputs["evidence"] if isinstance(one, str)])
    tables = [_flag_table(reader, flags, words_of), _slot_table(slots, words_of)]
    if found.sets:
        tables.append(set_table(reader, found.sets, "lb" if reader.unit == "lb" else "kg"))
    if found.pains:
        tables.append(report_table(reader, found.pains))
    if row.kind in ("contact", "progress", "deload"):
        tables.append(_session_table(reader, row))
    return Answer(
        title=_("Prompt of the week of %(week)s: %(kind)s") % {"week": said(row.week), "kind": kind_word(row.kind)},
        lead=[in_words(one["code"], one["params"], words_of) for one in row.reasons],
        figures=_figures(row, slots),
        tables=tables,
        rules=[Rule(row.rule_id, row.rule_version, _source(row.rule_id))],
        method="deload" if row.kind == "deload" else "questions",
        thresholds=[
            (_named(name), shown(value) if isinstance(value, int | float) else str(value))
            for name, value in {**row.inputs["thresholds"], **row.inputs.get("settings", {})}.items()
        ],
        uncertainty=_("A question, no finding: it rests on signs that are wrong at times, and the coach decides."),
        see=[(_("the question"), reverse("prompt", args=[row.pk]))],
    )


def _source(rule_id: str) -> str:
    known = [deload.RULE, *(one for one in vars(questions).values() if isinstance(one, Rule))]
    return next((one.source for one in known if one.id == rule_id), "")


def _named(name: str) -> str:
    labels = {
        "signs_needed": _("independent signs needed"),
        "weight_needed": _("their weights together at least"),
        "due_after_weeks": _("weeks from which it is due"),
        "hold_off_weeks": _("weeks after a deload without a question"),
        "rested_sessions": _("sessions missed that count as rest"),
        "most_sore_groups": _("sore groups that add up, at most"),
        "sets_share": _("sets are multiplied by, halves down"),
        "load_share": _("loads are multiplied by, rounded down to a real load"),
        "days": _("days"),
    }
    return labels.get(name) or threshold_word(name)


def _flags(row: Prompt) -> list[FlagRow]:
    """Return the week's flags that the question names, or whose entries it rests on."""
    evidence = row.inputs["evidence"]
    pairs = {tuple(one) for one in evidence if not isinstance(one, str)}
    ids = {one for one in evidence if isinstance(one, str)}
    rows = FlagRow.objects.filter(client=row.client_id, week=row.week).order_by("rule_id", "subject")
    return [
        one for one in rows if (one.rule_id, one.subject) in pairs or ids & {str(key) for key in one.inputs["evidence"]}
    ]


def _figures(row: Prompt, slots: list[dict[str, Any]]) -> list[Figure]:
    before = sum(one["sets"][0] for one in slots)
    share = row.proposal.get("sets_share")
    after = sum(one["sets"][1] if share is None else reduced_sets(one["sets"][0], share) for one in slots)
    found = [
        Figure(
            "sets_before", _("sets now"), row.proposal["sets"][0], before, " + ".join(str(s["sets"][0]) for s in slots)
        ),
        Figure(
            "sets_after",
            _("sets proposed"),
            row.proposal["sets"][1],
            after,
            " + ".join(str(s["sets"][1]) for s in slots),
        ),
    ]
    if row.kind == "deload":
        signs, weeks = len(row.inputs["signs"]), row.inputs["weeks_since_deload"]
        found.append(Figure("signs", _("independent signs"), signs, signs, ", ".join(row.inputs["signs"])))
        found.append(Figure("weeks", _("weeks of training since the last deload or empty week"), weeks, weeks, "", 1))
    return found


def _flag_table(reader: Reader, flags: list[FlagRow], words_of: Words) -> Table:
    rows = []
    for one in flags:
        name, sentence = str(subject(one, words_of)), in_words(one.code, one.params, words_of)
        text = f"{name}: {sentence}" if name else sentence
        rows.append([Cell(text, one.code, reader.why("flag", one.pk)), words(one.inputs.get("family", "–"))])
    columns = [Column("flag", _("Flag")), Column("family", _("Kind of sign"))]
    return Table("flags", _("The flags behind it"), columns, rows, _("None."))


def _slot_table(slots: list[dict[str, Any]], words_of: Words) -> Table:
    rows = [
        [
            Cell(said(day_of(one["date"]), _("D j M")), one["slot"]),
            words(words_of.exercises.get(str(one["exercise"]), "–")),
            number(one["sets"][0]),
            number(one["sets"][1]),
            number(one["rir_max"][0]),
            number(one["rir_max"][1]),
        ]
        for one in slots
    ]
    columns = [
        Column("slot", _("Day")),
        Column("exercise", _("Exercise")),
        Column("before", _("Sets now"), True),
        Column("after", _("proposed"), True),
        Column("rir_before", _("RIR, at most, now"), True),
        Column("rir_after", _("proposed"), True),
    ]
    return Table("slots", _("What it would change"), columns, rows, _("Nothing in the plan."))


def _session_table(reader: Reader, row: Prompt) -> Table:
    """List the planned sessions of the ten weeks before, with what was done of them."""
    rows = PlannedSession.objects.filter(client=reader.client, date__gt=row.week - 10 * WEEK, date__lt=row.week + WEEK)
    done = dict(Session.objects.filter(planned__in=rows).values_list("planned", "pk"))
    lines = [
        [
            Cell(
                said(one.date, _("D j M")), one.date.isoformat(), reader.session(done[one.pk]) if one.pk in done else ""
            ),
            Cell(_("deload") if one.is_deload else "–", one.is_deload),
            Cell(_("done") if one.pk in done else _("not done"), one.pk in done),
        ]
        for one in rows.order_by("-date", "-pk")
    ]
    columns = [Column("day", _("Planned for")), Column("deload", _("Week")), Column("done", _("State"))]
    return Table("sessions", _("The planned sessions of ten weeks"), columns, lines, _("Nothing was planned."))
