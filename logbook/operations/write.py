"""An operation after its checks, and what carrying it out gave."""

import datetime as dt
import uuid
from dataclasses import dataclass
from typing import Any

from accounts.models import Client


@dataclass(frozen=True, slots=True)
class Write:
    """`at` is the client's own clock, `now` the server's; `data` has passed the checks of its kind."""

    client: Client
    id: uuid.UUID
    at: dt.datetime
    now: dt.datetime
    data: dict[str, Any]

    def day_of(self, moment: dt.datetime) -> dt.date:
        """Return the day of the client's calendar on which `moment` falls."""
        return self.client.user.day_of(moment)


@dataclass(frozen=True, slots=True)
class Applied:
    """`result` is what the phone is told, now and at every replay; `since` the earliest day that changed.

    Without `since` nothing follows from it, and nothing is computed again."""

    result: dict[str, Any]
    since: dt.date | None
