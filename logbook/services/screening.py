"""Keep a client's answers, and what a clinician said to them."""

import datetime as dt
from collections.abc import Mapping

from django.db import transaction

from accounts.models import Client, User
from logbook.models import Clearance, Screening
from logbook.screening_questions import VERSION
from periodization.screening import RULE, screen


@transaction.atomic
def screening_answer(*, client: Client, answers: Mapping[str, bool], at: dt.datetime, note: str = "") -> Screening:
    """Keep a round of answers with what follows from them; ValueError when one is missing."""
    result = screen(answers)
    return Screening.objects.create(
        client=client,
        version=VERSION,
        answers=dict(answers),
        outcome=result.outcome,
        because=list(result.because),
        rule_version=RULE.version,
        note=note,
        answered_at=at,
    )


@transaction.atomic
def clearance_record(
    *, screening: Screening, cleared: bool, clinician: str, said_on: dt.date, recorded_by: User, note: str = ""
) -> Clearance:
    """Keep what a clinician said; the latest counts, and earlier ones stay. Not checked: that the user is the coach."""
    return Clearance.objects.create(
        screening=screening,
        client_id=screening.client_id,
        cleared=cleared,
        clinician=clinician,
        said_on=said_on,
        note=note,
        recorded_by=recorded_by,
    )
