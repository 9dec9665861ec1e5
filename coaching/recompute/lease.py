"""Who makes a client's rows when that takes several transactions: a second worker leaves them alone meanwhile.

What one transaction does needs no lease: the client's row is locked. The lease stands in that very row, because a
worker that waited for the lock reads the row as it is afterwards, and other tables as they were before.
"""

import datetime as dt
import uuid

from django.utils import timezone

from accounts.models import Client

# Chosen. Longer than a run of weeks takes, for it is renewed with each; a task ends after CELERY_TASK_TIME_LIMIT. A
# worker that dies keeps others off for so long, and then the sweep comes.
LEASE = dt.timedelta(seconds=30)


def is_taken(client: Client, token: uuid.UUID) -> bool:
    """Say whether another worker has the (locked) client. One that ends further off than any lease is that of a clock
    that was put back since."""
    now = timezone.now()
    if client.recompute_by in (None, token) or client.recompute_until is None:
        return False
    return now < client.recompute_until <= now + LEASE


def keep(client: Client, token: uuid.UUID, *, more: bool) -> None:
    """Take or renew the lease of the locked client while there is more to do, else let it go. A worker that has nothing
    to take or to let go of writes nothing."""
    if more:
        told = {"recompute_by": token, "recompute_until": timezone.now() + LEASE}
    elif client.recompute_by is not None:
        told = {"recompute_by": None, "recompute_until": None}
    else:
        return
    Client.objects.filter(pk=client.pk).update(**told)
