"""Why a client stands where they stand on the board: the sum, part by part."""

from typing import Any

from django.utils.translation import gettext as _

from coaching.models import FlagRow, Prompt, WeekSummary
from coaching.reads.named import exercises_of
from coaching.reads.prompts import in_order, open_prompts
from coaching.recompute import urgency as points
from coaching.recompute.prompts import topic_of
from coaching.templatetags.coaching import subject
from coaching.why.answer import Answer, Cell, Column, Figure, Table, number, words
from coaching.why.links import Reader
from coaching.why.weeks import said, week_row
from programs.sentences import Words, in_words, words_for


def urgency(reader: Reader, monday: str) -> Answer:
    """Answer for the points of a week; a question that was answered a moment ago no longer counts, as on the board."""
    summary = week_row(reader, monday)
    asked = open_prompts(summary.week, reader.client.user.today()).filter(client=reader.client)
    questions = {points.PROMPT_CODES[topic_of(one.kind, one.proposal)]: one for one in in_order(asked)}
    closed = set(points.PROMPT_CODES.values()) - set(questions)
    parts = [one for one in summary.urgency_reasons if one["code"] not in closed]
    words_of = words_for(reader.unit, {pk for one in parts for pk in exercises_of(one)})
    total = sum(one["points"] for one in parts)
    kept = summary.urgency if len(parts) == len(summary.urgency_reasons) else total
    return Answer(
        title=_("Urgency, week of %(week)s") % {"week": said(summary.week)},
        lead=[
            _("It orders the board: a stop comes before everything else. A question, a sign and bookkeeping add up.")
        ],
        figures=[
            Figure("points", _("points"), kept, total, " + ".join(str(one["points"]) for one in parts) or "0"),
        ],
        tables=[_table(reader, summary, parts, words_of, questions)],
        rules=[points.RULE],
        method="flags",
        thresholds=_sizes(),
        uncertainty=_(
            "The sizes are chosen, and only their order means something: 40 points are not twice as bad as 20."
        ),
    )


def _sizes() -> list[tuple[str, str]]:
    sizes = points.FLAG_POINTS
    return [
        (_("a flag: stop, act, watch"), f"{sizes['stop']}, {sizes['act']}, {sizes['watch']}"),
        (
            _("an open question: deload, swap for pain, contact, hold, variant, progress"),
            ", ".join(map(str, points.PROMPT_POINTS.values())),
        ),
        (_("nothing planned ahead"), str(points.NO_PLAN_POINTS)),
        (_("no session in two weeks"), str(points.NO_SESSION_POINTS)),
        (_("effort off the prescription by %(gap)s or more") % {"gap": points.EFFORT_GAP}, str(points.EFFORT_POINTS)),
        (
            _("each muscle group outside its range, at most %(most)s") % {"most": points.MOST_GROUP_POINTS},
            str(points.GROUP_POINTS),
        ),
    ]


def _table(
    reader: Reader,
    summary: WeekSummary,
    parts: list[dict[str, Any]],
    words_of: Words,
    questions: dict[str, Prompt],
) -> Table:
    flags: dict[tuple[str, str, str], list[FlagRow]] = {}
    for row in FlagRow.objects.filter(client=reader.client, week=summary.week).order_by("pk"):
        flags.setdefault((row.rule_id, row.subject_kind, row.subject), []).append(row)
    rows = []
    for one in parts:
        name = str(subject(one, words_of))
        sentence = in_words(one["code"], one["params"], words_of)
        rows.append(
            [
                Cell(
                    f"{name}: {sentence}" if name else sentence,
                    one["code"],
                    _link(reader, summary, one, flags, questions),
                ),
                words(one["state"]),
                number(one["points"]),
            ]
        )
    columns = [Column("part", _("Because")), Column("state", _("State")), Column("points", _("Points"), True)]
    return Table("parts", _("The sum"), columns, rows, _("Nothing: everything is as planned."))


def _link(
    reader: Reader,
    summary: WeekSummary,
    part: dict[str, Any],
    flags: dict[Any, list[FlagRow]],
    questions: dict[str, Prompt],
) -> str:
    """Return where the part itself is answered for; nothing for a plan that is missing."""
    week, code = summary.week.isoformat(), part["code"]
    if "rule" in part:
        same = flags.get((part["rule"], part["subject_kind"], part["subject"]), [])
        found = [row for row in same if row.code == code]
        return reader.why("flag", found[0].pk) if found else ""
    if code in questions:
        return reader.why("prompt", questions[code].pk)
    if code.startswith("effort_"):
        return reader.why("kept", week)
    return reader.why("ranges", week) if code.startswith("groups_") else ""
