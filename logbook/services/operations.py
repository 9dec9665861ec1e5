"""Carry out one small write of a client, once."""

import datetime as dt
import uuid
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.db import IntegrityError, transaction
from django.utils.translation import gettext as _
from rest_framework import serializers

from accounts.models import Client
from logbook.models import Operation
from logbook.operations import fields
from logbook.operations.clock import check_moment
from logbook.operations.kinds import KINDS, Kind
from logbook.operations.refused import Refused, id_not_usable
from logbook.operations.write import Write
from logbook.services.recompute import recompute_request


class Envelope(serializers.Serializer):
    """What every operation carries: an id made on the phone, its kind, and the phone's clock."""

    id = fields.ClientId()
    kind = fields.Text(max_length=30)
    at = fields.Moment()
    # The name `data` belongs to the serializer itself, so the content is checked by hand below.


@dataclass(frozen=True, slots=True)
class Outcome:
    """`status` is "saved" or "replayed"."""

    status: str
    result: dict[str, Any]


def operation_apply(*, client: Client, operation: Any, now: dt.datetime) -> dict[str, Any]:
    """Carry out one operation in one transaction and return its result; a replay returns the first result.

    `operation` is {"id", "kind", "at", "data"}. Raises Refused, and then nothing is saved, not even the refusal.
    """
    return operation_outcome(client=client, operation=operation, now=now).result


def operation_outcome(*, client: Client, operation: Any, now: dt.datetime, announce: bool = True) -> Outcome:
    """Do what `operation_apply` does and say whether it was a replay."""
    envelope, kind, raw = _read(operation)
    for last_try in (False, True):
        if (first := _first_result(client, envelope["id"])) is not None:
            return Outcome("replayed", first)
        try:
            return Outcome("saved", _carry_out(client, envelope, kind, raw, now, announce))
        except IntegrityError:
            # Another request made the same row in between: it was this very operation, or the row can now be found.
            if last_try:
                raise
    raise AssertionError("unreachable")


def _read(operation: Any) -> tuple[dict[str, Any], Kind, Any]:
    if not isinstance(operation, dict):
        raise Refused("not_an_object", _("An operation must be a JSON object."))
    envelope = _checked(Envelope(data=operation))
    if envelope["kind"] not in KINDS:
        raise Refused("unknown_kind", _("This kind of operation is not known here."), errors={"kind": ["unknown"]})
    if not isinstance(operation.get("data"), dict):
        raise Refused("not_an_object", _("The data of an operation must be a JSON object."), errors={"data": []})
    return envelope, KINDS[envelope["kind"]], operation["data"]


def _first_result(client: Client, operation_id: uuid.UUID) -> dict[str, Any] | None:
    known = Operation.objects.filter(pk=operation_id).first()
    if known is None:
        return None
    if known.client_id != client.pk:
        # SECURITY: the same answer as for any other clash of ids; it must not tell whose the operation was.
        raise id_not_usable()
    return known.result


@transaction.atomic
def _carry_out(
    client: Client, envelope: dict[str, Any], kind: Kind, raw: dict[str, Any], now: dt.datetime, announce: bool
) -> dict[str, Any]:
    check_moment(envelope["at"], now, "at")
    data = _checked(kind.data(data=raw))
    applied = kind.carry_out(write=Write(client, envelope["id"], envelope["at"], now, data))
    Operation.objects.create(pk=envelope["id"], client=client, kind=envelope["kind"], result=applied.result)
    if applied.since:
        recompute_request(client_id=client.pk, since=applied.since, reason=envelope["kind"], announce=announce)
    return applied.result


def _checked(serializer: serializers.Serializer) -> dict[str, Any]:
    if not serializer.is_valid():
        # `code` names the first fault; `errors` has them all.
        code = next(_codes(serializer.errors.values()), "invalid")
        raise Refused(code, _("Some values cannot be saved."), errors=dict(serializer.errors))
    return dict(serializer.validated_data)


def _codes(details: Iterable[Any]) -> Iterable[str]:
    for detail in details:
        if isinstance(detail, dict):
            yield from _codes(detail.values())
        elif isinstance(detail, list):
            yield from _codes(detail)
        else:
            yield detail.code
