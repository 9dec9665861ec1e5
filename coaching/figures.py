"""The figures and thresholds of a flag, as words and in the reader's unit."""

from collections.abc import Mapping
from typing import Any

from django.utils.formats import number_format
from django.utils.translation import gettext
from django.utils.translation import gettext_noop as _

from logbook.models import PainReport
from periodization.units import from_kg
from programs.sentences import Words
from programs.templatetags.loads import plain

# By rule and name; a name that means the same in every rule stands alone.
NAMES: dict[str, str] = {
    "check_in.below_own_baseline/mean_distance": _("mean distance from the usual, in spreads of one check-in"),
    "check_in.below_own_baseline/spread": _("spread of this client's check-ins, points"),
    "check_in.below_own_baseline/baseline_count": _("check-ins that make the usual"),
    "check_in.below_own_baseline/sign": _("a sign beside others from a mean distance of"),
    "check_in.below_own_baseline/watch": _("watch from a mean distance of"),
    "check_in.below_own_baseline/act": _("act from a mean distance of"),
    "check_in.below_own_baseline/latest": _("and the latest days from a distance of"),
    "check_in.below_own_baseline/recent_minimum": _("recent check-ins needed"),
    "check_in.below_own_baseline/baseline_days": _("days that make the usual"),
    "check_in.below_own_baseline/baseline_minimum": _("check-ins needed for the usual"),
    "effort.same_work_lower_rir/mean_drop": _("fewer repetitions in reserve, on average"),
    "effort.same_work_lower_rir/rir_drop": _("watch from a drop of"),
    "pain.report/score": _("pain, 0 to 10"),
    "pain.report/site": _("where"),
    "pain.report/reports": _("reports"),
    "pain.report/watched": _("reported less with, and watched"),
    "pain.report/stop_over": _("stop over"),
    "pain.report/watch_from": _("watch from"),
    "pain.report/rising_reports": _("reports in a row that count as rising"),
    "pain.report/clear_days": _("days without a report that clear it"),
    "performance.overall_under_expected/percent": _("under what was expected, percent"),
    "performance.overall_under_expected/z": _("the same, in standard deviations of that mean"),
    "performance.overall_under_expected/sign": _("a sign beside others from, standard deviations"),
    "performance.overall_under_expected/watch": _("watch from, standard deviations"),
    "performance.overall_under_expected/act": _("act from, standard deviations"),
    "performance.overall_under_expected/act_percent": _("and from, percent"),
    "performance.overall_under_expected/minimum_sessions": _("sessions needed"),
    "performance.overall_under_expected/minimum_exposures": _("exercises needed"),
    "performance.overall_under_expected/day_sd": _("what all sets of a day share, as a share of e1RM"),
    "performance.under_expected/expected_kg": _("expected e1RM"),
    "performance.under_expected/exposures_in_a_row": _("times in a row needed"),
    "reps.under_floor/share": _("share of sets under the lowest prescribed repetitions"),
    "sessions.missed/missed": _("planned sessions not done"),
    "sessions.missed/planned": _("planned sessions"),
    "sessions.missed/lately": _("of them in the last days"),
    "sessions.missed/watch": _("watch from"),
    "sessions.missed/act": _("act from"),
    "soreness.into_next_exposure/count": _("trainings of a muscle that was still sore"),
    "soreness.into_next_exposure/exposures": _("watch from"),
    "soreness.into_next_exposure/gap_days": _("longest gap between two trainings that counts, days"),
    "volume.far_over_range/sets": _("hard sets done"),
    "volume.far_over_range/ceiling": _("upper end of the range"),
    "volume.far_over_range/share": _("flagged over this share of the upper end"),
    "recent_days": _("recent days looked at"),
    "days": _("days looked at"),
    "exposures": _("times in a row needed"),
}
# Numbered pairs of one exposure each: observed_1, low_1, observed_2 ...
NUMBERED = {
    "observed": _("observed e1RM, exposure %(n)s"),
    "low": _("lower end of the expected range, exposure %(n)s"),
}


def figures(rule_id: str, values: Mapping[str, Any], words: Words) -> list[tuple[str, str]]:
    """Return (label, value) for what a flag kept under `values` or `thresholds`."""
    return [(_label(rule_id, name), _value(name, value, words)) for name, value in values.items()]


def site_name(site: str) -> str:
    """Return a site of the body in words."""
    return str(dict(PainReport.Site.choices).get(site, site))


def _label(rule_id: str, name: str) -> str:
    stem, _sep, number = name.rpartition("_")
    if number.isdigit() and stem in NUMBERED:
        return gettext(NUMBERED[stem]) % {"n": number}
    found = NAMES.get(f"{rule_id}/{name}") or NAMES.get(name)
    return gettext(found) if found else name.replace("_", " ")


def _value(name: str, value: Any, words: Words) -> str:
    if name == "site":
        return site_name(value)
    if isinstance(value, list | tuple) and not value:
        return "–"
    if isinstance(value, bool) or not isinstance(value, int | float):
        return "–" if value is None else words.name(name, value)
    if name == "expected_kg" or name.rpartition("_")[0] in NUMBERED:
        unit = "lb" if words.unit == "lb" else "kg"
        return f"{plain(round(from_kg(value, unit), 1))}\u00a0{unit}"
    # A threshold can have three decimals; fewer would show another number than the one compared with.
    text = plain(value) if value == round(value, 2) else number_format(round(value, 3))
    return text.replace("-", "−")
