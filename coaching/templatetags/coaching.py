"""Small words of the desk."""

import datetime as dt
from typing import Any

from django import template
from django.utils.html import format_html
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, pgettext_lazy

from coaching.figures import site_name
from coaching.models import Decision
from coaching.reads import answered
from coaching.why.links import why_link
from periodization.units import from_kg
from programs.sentences import Words, in_words
from programs.templatetags.loads import plain

register = template.Library()
STATES = {
    "stop": pgettext_lazy("state", "stop"),
    "act": pgettext_lazy("state", "act"),
    "watch": pgettext_lazy("state", "watch"),
    "ok": pgettext_lazy("state", "as planned"),
}
SPARK_WIDTH, SPARK_HEIGHT = 52, 18


@register.filter
def state_word(state: str) -> str:
    """Return the word that stands beside a state's mark."""
    return str(STATES.get(state, state))


@register.filter
def subject(part: Any, words: Words | None) -> str:
    """Return the name of what a flag or a part of the urgency is about; empty for the client as a whole."""
    kind, key = _read(part, "subject_kind"), _read(part, "subject")
    if kind == "site":
        return capfirst(site_name(key))
    if words is None or not key:
        return key or ""
    if kind == "exercise":
        return words.exercises.get(key, _("an exercise that is gone"))
    return words.groups.get(key, key)


def _read(part: Any, name: str) -> str:
    value = part.get(name) if isinstance(part, dict) else getattr(part, name, "")
    return value or ""


@register.filter
def confidence_word(value: float) -> str:
    """Say how far an estimate can be trusted, 0..1."""
    if value >= 0.8:
        return _("good")
    return _("fair") if value >= 0.5 else _("doubtful")


@register.filter
def signed(value: float | None) -> str:
    """Write a number with its sign, one decimal."""
    if value is None:
        return "–"
    return f"{value:+.1f}".replace("-", "−") if round(value, 1) else "0"


@register.filter
def percent(share: float | None) -> str:
    """Write a share as whole percent."""
    return "–" if share is None else f"{round(100 * share)} %"


@register.filter
def clears(flag: Any, words: Words | None) -> str:
    """Say what would clear a flag."""
    return in_words(flag.clears_code, flag.clears_params, words)


@register.filter
def rounded_load(kg: float, unit: str) -> str:
    """Show an estimate to one decimal: it cannot be trusted to more."""
    return format_html("{}&nbsp;{}", plain(round(from_kg(kg, "lb" if unit == "lb" else "kg"), 1)), unit)


@register.filter
def figure(value: float | None) -> str:
    """Write a number with as many decimals as it needs, two at most."""
    return "–" if value is None else plain(round(value, 2))


@register.simple_tag
def exercise_name(key: str, words: Words) -> str:
    """Return an exercise's name by its id."""
    return words.exercises.get(key, _("an exercise that is gone"))


KINDS = {
    "deload": gettext_lazy("deload"),
    "hold": gettext_lazy("hold back"),
    "swap": gettext_lazy("another exercise"),
    "progress": gettext_lazy("more sets"),
    "contact": gettext_lazy("a word with the client"),
}
THRESHOLDS = {
    "silent_days": gettext_lazy("Days without a session from which it is asked"),
    "signs": gettext_lazy("Signs on one exercise from which it is asked"),
    "rir_up": gettext_lazy("RIR up by"),
    "kept_share": gettext_lazy("Share of due sessions that must be done"),
    "sessions_under": gettext_lazy("Sessions in a row under the range from which it is asked"),
    "sessions_over": gettext_lazy("Sessions in a row over the range from which it is asked"),
    "harder_gap": gettext_lazy("Repetitions harder than prescribed that are let pass"),
}


@register.filter
def kind_word(kind: str) -> str:
    """Name a kind of question; a newer worker's keeps its code."""
    return str(KINDS.get(kind, kind))


@register.filter
def threshold_word(name: str) -> str:
    return str(THRESHOLDS.get(name, name))


@register.filter
def accepted_words(decision: Decision) -> str:
    """Say what an accepted question did."""
    return answered.accepted_words(decision)


@register.simple_tag
def why(client_id: int | None, kind: str, *key: Any) -> str:
    """Return the address of the answer to why; without a client's id that of the reader's own number."""
    return why_link(kind, *(one.isoformat() if isinstance(one, dt.date) else one for one in key), client_id=client_id)


TREND_WORDS = {
    "trend_rising": gettext_lazy("rising"),
    "trend_falling": gettext_lazy("falling"),
    "trend_flat": gettext_lazy("flat"),
    "trend_unclear": gettext_lazy("unclear"),
}


@register.filter
def trend_word(code: str) -> str:
    return str(TREND_WORDS.get(code, code))


@register.inclusion_tag("coaching/parts/spark.html")
def spark(values: list[float], unit: str) -> dict[str, Any]:
    """Draw the values small, oldest first, with first and last as the words for those who do not see it."""
    low, high = min(values, default=0), max(values, default=0)
    step = SPARK_WIDTH / max(len(values) - 1, 1)
    # A flat line stands in the middle; a hundredth of the level is the least that the height shows.
    room = max(high - low, 0.01 * high) or 1
    middle = (high + low) / 2
    points = [
        f"{2 + n * step:.1f},{SPARK_HEIGHT / 2 - (value - middle) / room * (SPARK_HEIGHT - 4):.1f}"
        for n, value in enumerate(values)
    ]
    ends = [plain(round(from_kg(values[n], "lb" if unit == "lb" else "kg"), 1)) for n in (0, -1)] if values else []
    return {
        "points": " ".join(points),
        "last": points[-1].split(",") if points else None,
        "count": len(values),
        "ends": ends,
        "unit": unit,
        "width": SPARK_WIDTH + 4,
        "height": SPARK_HEIGHT,
    }
