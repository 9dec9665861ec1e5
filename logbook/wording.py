"""Sets, loads and prescriptions in words; static/logbook/words.js says the same on the phone."""

import datetime as dt
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from programs.templatetags.loads import plain, typed_in


def load_words(load: float, unit: str, exercise: dict[str, Any], reader: str = "") -> str:
    """Say a load: as added load with the body, as assistance, or nothing where there is no load to count.

    For a `reader` with another unit it stands in that one, too, in brackets.
    """
    text = typed_in(float(load), unit, reader or unit).replace("&nbsp;", "\u00a0")
    if exercise["load_kind"] == "body_plus":
        return _("body weight + %(load)s") % {"load": text} if load else _("body weight")
    if exercise["load_kind"] == "assisted":
        return _("%(load)s assistance") % {"load": text} if load else _("no assistance")
    return "" if not load and exercise["equipment"]["kind"] == "none" else text


def reps_words(reps: int, exercise: dict[str, Any]) -> str:
    if exercise["rep_unit"] == "seconds":
        return _("%(count)s\u00a0s") % {"count": reps}
    if exercise["rep_unit"] == "steps":
        return ngettext("%(count)s step", "%(count)s steps", reps) % {"count": reps}
    return str(reps)


def amount_words(count: int, exercise: dict[str, Any]) -> str:
    """Say an amount of what the exercise counts: "2 repetitions", "5 s"."""
    if exercise["rep_unit"] == "reps":
        return ngettext("%(count)s repetition", "%(count)s repetitions", count) % {"count": count}
    return reps_words(count, exercise)


def rir_words(rir: float | None) -> str:
    return _("RIR unknown") if rir is None else _("RIR %(rir)s") % {"rir": plain(float(rir))}


def set_words(row: dict[str, Any], exercise: dict[str, Any], reader: str = "") -> str:
    """Say a set: "42.5 kg × 10, RIR 1"; for a `reader` in pounds "42.5 kg (93.7 lb) × 10, RIR 1"."""
    load, reps = load_words(row["load"], row["unit"], exercise, reader), reps_words(row["reps"], exercise)
    work = f"{load} × {reps}" if load else amount_words(row["reps"], exercise)
    return f"{work}, {rir_words(row['rir'])}"


def span(low: int, high: int) -> str:
    return str(low) if low == high else f"{low}–{high}"


def prescription_words(prescription: dict[str, Any] | None, exercise: dict[str, Any]) -> str:
    """Say a prescription: "3 × 8–12 @ 1–2 RIR"."""
    if prescription is None:
        return _("not in the plan")
    reps = span(prescription["reps_min"], prescription["reps_max"])
    if exercise["rep_unit"] == "seconds":
        reps = _("%(count)s\u00a0s") % {"count": reps}
    elif exercise["rep_unit"] == "steps":
        reps = _("%(count)s steps") % {"count": reps}
    sets = span(prescription["sets_min"] or prescription["sets"], prescription["sets"])
    return f"{sets} × {reps} @ {span(prescription['rir_min'], prescription['rir_max'])} RIR"


def prescription_sentence(prescription: dict[str, Any] | None, exercise: dict[str, Any]) -> str:
    """Say a prescription to someone who never read one; empty for an exercise outside the plan."""
    if prescription is None:
        return ""
    low, high = prescription["reps_min"], prescription["reps_max"]
    sets = span(prescription["sets_min"] or prescription["sets"], prescription["sets"])
    many = ngettext("%(sets)s set", "%(sets)s sets", prescription["sets"]) % {"sets": sets}
    if exercise["rep_unit"] == "seconds":
        each = _("%(many)s, each held for %(count)s seconds.")
    elif exercise["rep_unit"] == "steps":
        each = _("%(many)s of %(count)s steps.")
    else:
        each = ngettext("%(many)s of %(count)s repetition.", "%(many)s of %(count)s repetitions.", high)
    rir = span(prescription["rir_min"], prescription["rir_max"])
    if exercise["rep_unit"] == "seconds":
        until = _("End each before the position is lost.")
    elif rir == "0":
        until = _("End each when no more would go in good form: RIR 0 (repetitions in reserve).")
    else:
        until = _("End each when about %(rir)s more would still go in good form: your RIR (repetitions in reserve).")
    return f"{each % {'many': many, 'count': span(low, high)}} {until % {'rir': rir}}"


def duration_words(seconds: int) -> str:
    """Say a rest: "1:30 min", "45 s"."""
    return f"{seconds // 60}:{seconds % 60:02d}\u00a0min" if seconds >= 60 else f"{seconds}\u00a0s"


def side_words(side: str) -> str:
    return {"left": _("left"), "right": _("right")}.get(side, "")


def minutes_proposed(started_at: dt.datetime, last_set_at: dt.datetime | None) -> int | None:
    """Return the minutes from the beginning to the last set, up to the next five.

    None without a set, and for a session that was written down later: its sets stand at its beginning.
    """
    if last_set_at is None or last_set_at <= started_at:
        return None
    minutes = (last_set_at - started_at).total_seconds() / 60
    return max(5, -int(-minutes // 5) * 5)
