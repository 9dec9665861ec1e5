"""Strict fields: a number is a number, not a word that looks like one.

A phone that sends "8" where 8 is meant has a fault that should be seen, not guessed away.
"""

import datetime as dt
import math
import uuid
from typing import Any

from django.utils.translation import gettext_lazy as _
from rest_framework import serializers

# The largest id that both database engines can compare.
MOST = 2**31 - 1


class Number(serializers.FloatField):
    """A finite JSON number."""

    default_error_messages = {
        "not_a_number": _("This must be a number."),
        "not_finite": _("This must be a finite number."),
    }

    def to_internal_value(self, data: Any) -> float:
        if isinstance(data, bool) or not isinstance(data, int | float):
            self.fail("not_a_number")
        try:
            value = float(data)
        except OverflowError:  # a whole number of hundreds of digits
            value = math.inf
        if not math.isfinite(value):
            self.fail("not_finite")
        return value


class Halves(Number):
    """A number in steps of a half."""

    default_error_messages = {"not_halves": _("Use whole or half steps.")}

    def to_internal_value(self, data: Any) -> float:
        value = super().to_internal_value(data)
        if value * 2 % 1:
            self.fail("not_halves")
        return value


class Whole(serializers.IntegerField):
    """A JSON number without a fraction."""

    default_error_messages = {"not_whole": _("This must be a whole number.")}

    def to_internal_value(self, data: Any) -> int:
        if isinstance(data, bool) or not isinstance(data, int):
            self.fail("not_whole")
        return data


class RowId(Whole):
    """The number of a row that the server made."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(min_value=1, max_value=MOST, **kwargs)


class Flag(serializers.BooleanField):
    """true or false."""

    default_error_messages = {"not_a_flag": _("This must be true or false.")}

    def to_internal_value(self, data: Any) -> bool:
        if not isinstance(data, bool):
            self.fail("not_a_flag")
        return data


class Text(serializers.CharField):
    """A JSON string; empty is allowed."""

    default_error_messages = {"not_text": _("This must be text.")}

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(allow_blank=True, **kwargs)

    def to_internal_value(self, data: Any) -> str:
        if not isinstance(data, str):
            self.fail("not_text")
        return super().to_internal_value(data)


class ClientId(serializers.UUIDField):
    """A UUID in its usual text form, made on the phone."""

    def to_internal_value(self, data: Any) -> uuid.UUID:
        if not isinstance(data, str):
            self.fail("invalid", value=data)
        return super().to_internal_value(data)


class Moment(serializers.DateTimeField):
    """An ISO 8601 time with its offset, returned in UTC."""

    default_error_messages = {
        "not_a_time": _("This must be a time like 2024-05-01T18:30:00+02:00."),
        "no_offset": _("The time must say its offset from UTC."),
    }

    def to_internal_value(self, data: Any) -> dt.datetime:
        if not isinstance(data, str):
            self.fail("not_a_time")
        try:
            value = dt.datetime.fromisoformat(data)
            if value.tzinfo is None:
                self.fail("no_offset")
            return value.astimezone(dt.UTC)
        except (ValueError, OverflowError):
            self.fail("not_a_time")


class Day(serializers.DateField):
    """A calendar day like 2024-05-01."""

    def to_internal_value(self, data: Any) -> dt.date:
        if not isinstance(data, str):
            self.fail("invalid", format="YYYY-MM-DD")
        return super().to_internal_value(data)
