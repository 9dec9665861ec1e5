"""Which muscle groups lie outside their range in a week, and by which comparison."""

from django.utils.translation import gettext as _

from coaching.reads.week_row import group_rows
from coaching.recompute.urgency import outside
from coaching.why.answer import Answer, Cell, Column, Figure, Table, number, words
from coaching.why.links import Reader
from coaching.why.weeks import said, week_row
from periodization.targets import RULE
from programs.sentences import words_for


def ranges(reader: Reader, monday: str) -> Answer:
    """Answer for the counts of groups under and over their range."""
    summary = week_row(reader, monday)
    rows = group_rows(summary.volume, words_for(reader.unit))
    under, over = outside(summary.volume)
    aimed = summary.volume["groups"]
    judged = [one for one in rows if one.floor is not None]
    again_under = [one for one in judged if one.shown < (one.floor or 0) and aimed[one.slug]["aimed"]]
    again_over = [one for one in judged if one.ceiling is not None and one.shown > one.ceiling]
    deload = summary.volume["deload"]
    lines = [
        [
            Cell(one.name, one.slug, reader.why("volume", summary.week.isoformat(), one.slug)),
            number(one.done),
            number(one.ahead),
            number(one.shown),
            number(one.floor),
            number(one.ceiling),
            Cell(_("yes") if aimed[one.slug]["aimed"] else _("no"), aimed[one.slug]["aimed"]),
            words(_state().get(one.state, one.state), one.state),
        ]
        for one in judged
    ]
    columns = [
        Column("group", _("Muscles")),
        Column("done", _("Done"), True),
        Column("ahead", _("Ahead"), True),
        Column("shown", _("Judged"), True),
        Column("floor", _("From"), True),
        Column("ceiling", _("To"), True),
        Column("aimed", _("Trained directly")),
        Column("state", _("Standing")),
    ]
    return Answer(
        title=_("Muscles outside their range, week of %(week)s") % {"week": said(summary.week)},
        lead=[
            _(
                "Judged is what was done and, while the week runs, what is still ahead. Only what the plan trains "
                "directly can be under."
            ),
            *([_("A deload week: nothing counts as under.")] if deload else []),
        ],
        figures=[
            Figure("under", _("under"), len(under), 0 if deload else len(again_under)),
            Figure("over", _("over"), len(over), len(again_over)),
            Figure(
                "outside", _("outside"), len(under) + len(over), (0 if deload else len(again_under)) + len(again_over)
            ),
            Figure("groups", _("muscle groups with sets or a range"), len(rows), len(aimed)),
        ],
        tables=[Table("groups", _("Every group against its range"), columns, lines)],
        rules=[RULE],
        method="weekly-volume",
        uncertainty=_("The ranges are chosen inside what publications say; a set more or less is no difference."),
    )


def _state() -> dict[str, str]:
    return {"under": _("under"), "over": _("over"), "inside": _("inside"), "free": _("indirect only")}
