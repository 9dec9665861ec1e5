"""What the fault tests of an erasure do inside the application's own set-up (through `manage.py shell`)."""

import sys
import time

from accounts.models import Client, User
from coaching.models import Erasure
from coaching.services import erase
from logbook.models import PastRun, SetLog


def _person() -> tuple[Client, User]:
    client = PastRun.objects.get().client
    return client, User.objects.get(memberships__role="owner", memberships__practice=client.practice)


def erase_now() -> None:
    client, owner = _person()
    proof = erase.client_erase(client=client, by=owner)
    there = Client.objects.filter(pk=client.pk).exists() or SetLog.objects.filter(client_id=client.pk).exists()
    sys.stdout.write(f"{'something' if there else 'nothing'} left, {proof.counts.get('logbook.SetLog', 0)} sets")


def erase_and_wait() -> None:
    """Remove everything, say so, and never come to the commit."""

    def wait(**values: object) -> None:
        sys.stdout.write("removed")
        sys.stdout.flush()
        time.sleep(120)

    client, owner = _person()
    Erasure.objects.create = wait  # type: ignore[method-assign]
    erase.client_erase(client=client, by=owner)
