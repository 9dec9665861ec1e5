"""Ids made from content, so that a rebuild gives the same rows and a decision finds its prompt again."""

import datetime as dt
from uuid import UUID, uuid5

from periodization.flags import Flag

NAMESPACE = UUID("6f0c6b0e-6f0d-5f0a-9d53-6c7f3c2f7a11")


def flag_id(client_id: int, week: dt.date, flag: Flag, occurrence: int) -> UUID:
    """Return the id of a week's flag; `occurrence` tells apart two of one rule and subject (two painful sites)."""
    name = f"flag/{client_id}/{week}/{flag.rule_id}/{flag.version}/{flag.subject_kind}/{flag.subject}/{occurrence}"
    return uuid5(NAMESPACE, name)
