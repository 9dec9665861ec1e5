"""Where a client stands with the screening questions, and whether a session may begin."""

import datetime as dt
from dataclasses import dataclass

from accounts.models import Client
from logbook.models import Screening, Session

# A clinician's word, like the answers, is taken to hold for a year (Riebe et al. 2015: clearance within 12 months).
HOLDS = dt.timedelta(days=365)


@dataclass(frozen=True, slots=True)
class Standing:
    """`state`: "ask" (never answered), "again" (answered over a year ago), "clinician" (a clinician first; nobody said
    yes yet), "fine". `closed`: no session may begin until it is answered or cleared."""

    state: str
    closed: bool
    screening: Screening | None


def standing_of(client: Client, *, today: dt.date) -> Standing:
    """Return where the client stands (one or two queries).

    Who has trained here before is not stopped in the middle of a plan by a question, but is by a sign.
    """
    latest = Screening.objects.filter(client=client).with_word().first()
    if latest is None:
        return Standing("ask", not _has_trained(client), None)
    if latest.clinician_first and not latest.cleared:
        # A known disease without a sign: the algorithm lets an active person go on moderately meanwhile.
        closed = latest.outcome == "sign" or latest.cleared is False or not _has_trained(client)
        return Standing("clinician", closed, latest)
    if client.user.day_of(latest.answered_at) < today - HOLDS:
        return Standing("again", False, latest)
    return Standing("fine", False, latest)


def _has_trained(client: Client) -> bool:
    return Session.objects.filter(client=client).exists()
