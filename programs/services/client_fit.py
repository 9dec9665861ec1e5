"""Write what a client has at hand and must keep from. Who may do it is checked by the caller."""

import datetime as dt
from collections.abc import Iterable

from django.db import transaction
from django.utils.translation import gettext as _

from accounts.models import Client, User
from programs.models import ClientEquipment, ClientLimit, Equipment, Exercise, Limit


class LimitError(ValueError):
    """The limit cannot be written so; the message says why."""


@transaction.atomic
def client_gear_set(*, client: Client, equipment: Iterable[Equipment], minutes: int | None, told_by: User) -> None:
    """Replace what the client has (none: everything) and how long a session may take."""
    wanted = {row.pk for row in equipment}
    has = set(ClientEquipment.objects.filter(client=client).values_list("equipment", flat=True))
    ClientEquipment.objects.filter(client=client, equipment__in=has - wanted).delete()
    ClientEquipment.objects.bulk_create(
        ClientEquipment(client=client, equipment_id=pk, told_by=told_by) for pk in sorted(wanted - has)
    )
    if client.minutes_per_session != minutes:
        client.minutes_per_session = minutes
        client.save(update_fields=["minutes_per_session"])


@transaction.atomic
def client_limit_add(
    *,
    client: Client,
    told_by: User,
    since: dt.date,
    limit: Limit | None = None,
    exercise: Exercise | None = None,
    until: dt.date | None = None,
    note: str = "",
) -> ClientLimit:
    """Keep the client from something from `since` on. Raises LimitError when that holds already."""
    list(Client.objects.select_for_update(no_key=True).filter(pk=client.pk).values_list("pk"))
    holding = ClientLimit.objects.filter(client=client, limit=limit, exercise=exercise, until=None)
    if holding.exists():
        raise LimitError(_("This holds already."))
    return ClientLimit.objects.create(
        client=client, limit=limit, exercise=exercise, since=since, until=until, note=note, told_by=told_by
    )


@transaction.atomic
def client_limit_end(*, row: ClientLimit, today: dt.date) -> None:
    """Take a limit off: it held until yesterday, or never where it began today."""
    row = ClientLimit.objects.select_for_update().get(pk=row.pk)
    last = today - dt.timedelta(days=1)
    if row.since > last:
        row.delete()
    elif row.until is None or row.until > last:
        row.until = last
        row.save(update_fields=["until"])
