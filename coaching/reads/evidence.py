"""The log entries that a flag or a target rests on, by the ids that its row kept."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from uuid import UUID

from accounts.models import Client
from logbook.models import CheckIn, PainReport, SetLog
from programs.models import PlannedSession


@dataclass(frozen=True)
class Evidence:
    """The log entries a flag or a target rests on."""

    sets: list[SetLog]
    check_ins: list[CheckIn]
    pains: list[PainReport]
    planned: list[PlannedSession]

    @property
    def days(self) -> list[dt.date]:
        return sorted({row.session.date for row in self.sets})


def evidence_of(client: Client, ids: Iterable[str]) -> Evidence:
    """Return the client's rows with these ids; what was deleted since is missing."""
    uuids, numbers = [], []
    for one in ids:
        try:
            uuids.append(UUID(str(one)))
        except ValueError:
            if str(one).isdigit():
                numbers.append(int(one))
    sets = SetLog.objects.filter(client=client, pk__in=uuids).select_related("session", "exercise__equipment")
    return Evidence(
        list(sets.order_by("performed_at", "number", "side")),
        list(CheckIn.objects.filter(client=client, pk__in=uuids).order_by("date")),
        list(PainReport.objects.filter(client=client, pk__in=uuids).select_related("exercise").order_by("reported_at")),
        list(PlannedSession.objects.filter(client=client, pk__in=numbers).order_by("date")),
    )
