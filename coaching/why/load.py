"""Why the session load, monotony, strain and moving averages are what they are. The dispute stands on the page:
templates/coaching/parts/load_dispute.html, which coaching/parts/why_answer.html includes."""

from django.utils.translation import gettext as _

from coaching.recompute.calendar import LOOKBACK
from coaching.why.answer import Answer, Cell, Column, Figure, Table, number, shown
from coaching.why.links import Reader
from coaching.why.weeks import said, until, week_row
from logbook.models import Session
from periodization.session_load import (
    ACUTE_DAYS,
    CHRONIC_DAYS,
    RULE,
    daily_series,
    describe_load,
    session_load,
)


def load(reader: Reader, monday: str) -> Answer:
    """Answer for a week's load; the sessions of the look back are listed, since the averages reach that far."""
    summary = week_row(reader, monday)
    first, last = summary.week - LOOKBACK, until(summary)
    sessions = list(
        Session.objects.filter(client=reader.client, date__gte=first, date__lte=last)
        .order_by("date", "id")
        .only("id", "date", "session_rpe", "minutes")
    )
    rated = [
        (one.date, session_load(one.session_rpe, one.minutes))
        for one in sessions
        if one.session_rpe is not None and one.minutes is not None
    ]
    found = describe_load(daily_series(rated, first, last)) if rated else None
    week = sum(daily_series(rated, summary.week, last))
    unrated = [one for one in sessions if one.date >= summary.week and (one.session_rpe is None or one.minutes is None)]
    row = summary.load
    figures = [
        Figure("week", _("week's load"), row["week"], week, _("sum of RPE × minutes since Monday"), 0),
        Figure(
            "monotony",
            _("monotony"),
            row["monotony"],
            found.monotony if found else None,
            _("mean / standard deviation of the seven days up to %(day)s") % {"day": said(last)},
        ),
        Figure(
            "strain",
            _("strain"),
            row["strain"],
            found.strain if found else None,
            _("load of those seven days × monotony")
            if row["monotony"] is None or found is None
            else f"{shown(found.week_load, 0)} × {shown(row['monotony'])}",
            0,
        ),
        Figure(
            "acute",
            _("a day, over 7 days"),
            row["acute"],
            found.acute if found else None,
            _("each day: average + 2 / (7 + 1) × (load − average), from the first day on"),
            0,
        ),
        Figure(
            "chronic",
            _("a day, over 28 days"),
            row["chronic"],
            found.chronic if found else None,
            _("each day: average + 2 / (28 + 1) × (load − average), from the first day on"),
            0,
        ),
        Figure("unrated", _("sessions not rated"), len(row["unrated"]), len(unrated)),
    ]
    return Answer(
        title=_("Session load, week of %(week)s") % {"week": said(summary.week)},
        lead=[_("Description only: it does not say who will be hurt, and drives no flag. A day of rest is 0.")],
        figures=figures,
        tables=[_table(reader, sessions)],
        rules=[RULE],
        method="session-load",
        thresholds=[
            (_("first day of the averages"), said(first)),
            (_("last day"), said(last)),
            (_("spans in days"), f"{ACUTE_DAYS}, {CHRONIC_DAYS}"),
        ],
        uncertainty=_(
            "A session's RPE is one number for the whole session, given by memory; nothing is known of the error of "
            "a single "
            "week's load, and two weeks that differ by a few percent are the same."
        ),
        load_dispute=True,
    )


def _table(reader: Reader, sessions: list[Session]) -> Table:
    rows = [
        [
            Cell(said(one.date, _("D j M")), one.date.isoformat(), reader.session(one.pk)),
            number(one.session_rpe),
            number(one.minutes),
            number(
                None if one.session_rpe is None or one.minutes is None else session_load(one.session_rpe, one.minutes),
                0,
            ),
        ]
        for one in reversed(sessions)
    ]
    columns = [
        Column("day", _("Session")),
        Column("rpe", _("Session RPE"), True),
        Column("minutes", _("Minutes"), True),
        Column("load", _("Load"), True),
    ]
    return Table("sessions", _("The sessions it came from"), columns, rows, _("No session in these weeks."))
