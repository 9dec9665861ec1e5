"""A prescription typed in one line: `3 x 8-12 @ 1-2 RIR`, `8 to 12 reps at 1-2 RIR for 3-4 sets, rest 90 s`."""

import re
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _

from programs.document import limits
from programs.document.errors import EditError
from programs.document.model import Range
from programs.document.ranges import RANGE, check_range

_I = re.IGNORECASE
_SETS_AND_REPS = re.compile(rf"{RANGE}\s*(?:sets?\s*)?(?:[x×*]|of)\s*{RANGE}(?:\s*rep(?:etition)?s?\b)?", _I)
_TEMPO = re.compile(r"tempo:?\s*([0-9xX](?:[-/.\s]?[0-9xX]){1,4})", _I)
_REST_MINUTES = re.compile(r"(?:rest:?\s*)?(\d{1,2}(?:[.,]\d)?)\s*min(?:utes?)?\b(?:\s*rest)?", _I)
_REST = re.compile(
    r"rest:?\s*(\d{1,3})\s*(?:seconds?|sec|s)?\b|(\d{1,3})\s*(?:seconds?|sec|s)\b(?:\s*(?:of\s*)?rest)?", _I
)
_RIR = re.compile(
    rf"(?:(?:@|at|with)\s*)?{RANGE}\s*(?:rir\b|(?:rep(?:etition)?s?\s*)?in\s*reserve)|(?:@|at)?\s*rir:?\s*{RANGE}|@\s*{RANGE}",
    _I,
)
_SETS = re.compile(rf"(?:for\s*)?{RANGE}\s*sets?\b", _I)
_REPS = re.compile(rf"(?:of\s*)?{RANGE}\s*rep(?:etition)?s?\b", _I)
_FILLER = re.compile(r"[\s,;.·|@]|\b(?:for|at|of|and|with)\b", _I)


@dataclass(frozen=True, slots=True)
class Prescription:
    """What a line says; None where it says nothing."""

    sets: Range | None = None
    reps: Range | None = None
    rir: Range | None = None
    rest_s: int | None = None
    tempo: str | None = None

    def said(self) -> dict[str, Any]:
        """Return only what was said, under the names of a slot's fields."""
        return {name: value for name in self.__slots__ if (value := getattr(self, name)) is not None}


def read_prescription(text: str) -> Prescription:
    """Understand a typed prescription; EditError (field `text`) when a part of it is not understood."""
    rest = text
    found: dict[str, Any] = {}

    def take(pattern: re.Pattern[str]) -> tuple[str | None, ...] | None:
        nonlocal rest
        match = pattern.search(rest)
        if match is None:
            return None
        rest = f"{rest[: match.start()]} {rest[match.end() :]}"
        return match.groups()

    if tempo := take(_TEMPO):
        found["tempo"] = str(tempo[0]).strip()
    if minutes := take(_REST_MINUTES):
        found["rest_s"] = _rest(round(float(str(minutes[0]).replace(",", ".")) * 60))
    if both := take(_SETS_AND_REPS):
        found["sets"] = _checked((both[0], both[1]), limits.SETS, _("Sets"))
        found["reps"] = _checked((both[2], both[3]), limits.REPS, _("Repetitions"))
    if rir := take(_RIR):
        ends = next((rir[i], rir[i + 1]) for i in (0, 2, 4) if rir[i])
        found["rir"] = _checked(ends, limits.RIR, _("RIR"))
    if "sets" not in found and (sets := take(_SETS)):
        found["sets"] = _checked((sets[0], sets[1]), limits.SETS, _("Sets"))
    if "reps" not in found and (reps := take(_REPS)):
        found["reps"] = _checked((reps[0], reps[1]), limits.REPS, _("Repetitions"))
    if "rest_s" not in found and (seconds := take(_REST)):
        found["rest_s"] = _rest(int(seconds[0] or seconds[1] or 0))
    if not text.strip():
        raise EditError(_("Nothing is written here. Write it like: 3 × 8–12 @ 1–2 RIR, rest 120 s."), "text")
    unread = _FILLER.sub(" ", rest).strip()
    if unread or not found:
        raise EditError(
            _("“%(part)s” was not understood. Write it like: 3 × 8–12 @ 1–2 RIR, rest 120 s.")
            % {"part": " ".join(unread.split()) or text.strip()},
            "text",
        )
    return Prescription(**found)


def _checked(ends: tuple[str | None, str | None], bounds: Range, name: str) -> Range:
    return check_range((str(ends[0]), ends[1]), bounds, "text", name)


def _rest(seconds: int) -> int:
    return check_range((str(seconds), None), limits.REST_S, "text", _("Rest in seconds"))[0]
