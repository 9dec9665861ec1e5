"""What of a table is in the log already. The log stands: such rows are left out, and the person is told."""

import datetime as dt
import uuid
from collections.abc import Sequence
from dataclasses import dataclass, field

from django.utils.crypto import salted_hmac

from accounts.models import Client
from logbook.models import BodyMass, CheckIn, SetLog
from logbook.past.day_lines import DayLine
from logbook.past.set_lines import SessionKey, SetLine


@dataclass(slots=True)
class NewSets:
    """`lines` are to be added under `ids`; `same` are logged already, in the place of `other` something else is."""

    lines: list[SetLine] = field(default_factory=list)
    ids: list[uuid.UUID] = field(default_factory=list)
    same: list[SetLine] = field(default_factory=list)
    other: list[SetLine] = field(default_factory=list)


@dataclass(slots=True)
class NewDays:
    """Check-ins and body masses to be added, and the rows of days that have both or the one already."""

    check_ins: list[DayLine] = field(default_factory=list)
    masses: list[DayLine] = field(default_factory=list)
    same: list[DayLine] = field(default_factory=list)


def past_id(*parts: object) -> uuid.UUID:
    """Return the id that the same row of a client always gets; keyed, so that nobody can occupy it beforehand."""
    digest = salted_hmac("logbook.past", "|".join(map(str, parts)), algorithm="sha256").digest()
    return uuid.UUID(bytes=digest[:16], version=4)


def past_session_id(client: Client, key: SessionKey) -> uuid.UUID:
    return past_id("session", client.pk, key[0].isoformat(), key[1])


def new_sets(client: Client, lines: Sequence[SetLine]) -> NewSets:
    """Part the lines into new ones and those that are logged (one query)."""
    found = NewSets()
    if not lines:
        return found
    sessions = {key: past_session_id(client, key) for key in {line.key for line in lines}}
    same, taken, known = _logged(client, min(line.date for line in lines), max(line.date for line in lines))
    for line in lines:
        session = sessions[line.key]
        # A session that the table names is only compared with what can be that session.
        rivals = (session, None) if line.session else (session, None, "another")
        values = (*line.place, round(line.load_kg, 2), line.reps)
        if any((rival, *values) in same for rival in rivals):
            found.same.append(line)
        elif any((rival, *line.place) in taken for rival in (rivals[:1] if line.session else rivals)):
            found.other.append(line)
        else:
            row_id = past_id("set", client.pk, session, *line.place[1:], f"{line.load:g}", line.unit, line.reps)
            if row_id in known:
                found.same.append(line)  # brought in before, and edited or taken out since
            else:
                found.lines.append(line)
                found.ids.append(row_id)
    return found


def _logged(client: Client, first: dt.date, last: dt.date) -> tuple[set[tuple], set[tuple], set[uuid.UUID]]:
    """Return the logged sets of some days with and without their values, and all ids.

    Each stands under its session if that was brought in (and under "another" for tables that name no sessions), and
    under None if it was logged here.
    """
    same, taken, known = set(), set(), set()
    rows = SetLog.objects.filter(client=client, session__date__gte=first, session__date__lte=last)
    for row_id, session, imported, date, exercise, warm_up, number, side, load_kg, reps, deleted in rows.values_list(
        "pk", "session", "session__imported", "session__date", "exercise", "warm_up", "number", "side", "load_kg",
        "reps", "deleted_at",
    ).iterator():  # fmt: skip
        known.add(row_id)
        if deleted:
            continue
        place = (date, exercise, warm_up, number, side)
        for owner in (session, "another") if imported else (None,):
            same.add((owner, *place, round(load_kg, 2), reps))
            taken.add((owner, *place))
    return same, taken, known


def new_days(client: Client, lines: Sequence[DayLine]) -> NewDays:
    """Part the days into what is new and what stands already (two queries)."""
    dates = [line.date for line in lines]
    span = {
        "client": client,
        "date__gte": min(dates, default=dt.date.max),
        "date__lte": max(dates, default=dt.date.min),
    }
    answered = set(CheckIn.objects.filter(**span).values_list("date", flat=True))
    weighed = set(BodyMass.objects.filter(**span).values_list("date", flat=True))
    found = NewDays()
    for line in lines:
        check_in = bool(line.items) and line.date not in answered
        mass = line.mass is not None and line.date not in weighed
        if check_in:
            found.check_ins.append(line)
        if mass:
            found.masses.append(line)
        if check_in != bool(line.items) or mass != (line.mass is not None):
            found.same.append(line)
    return found
