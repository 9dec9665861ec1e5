"""Every number the rules compare with. CHOSEN unless the comment names a source; docs/methods/flags.md says how."""

from dataclasses import dataclass

from periodization.readiness import DEFAULT as USUAL
from periodization.readiness import BaselineSettings


@dataclass(frozen=True, slots=True)
class Thresholds:
    """Thresholds of all rules; a practice may pass its own."""

    # Performance: what the trend of the `baseline_days` expects, but for the recent days that are compared with it.
    baseline_days: int = 70
    baseline_minimum: int = 3
    # One exercise: so many exposures in a row, inside the recent days, under the lower end of the 90 % interval.
    recent_days: int = 14
    exposures_in_a_row: int = 2
    # All exercises together: mean shortfall of the recent sessions, in SDs of that mean; to act, in percent too. From
    # `overall_sign` on it counts beside other signs, from `overall_watch` on it is shown by itself.
    overall_days: int = 7
    overall_minimum_sessions: int = 2
    overall_minimum_exposures: int = 4
    overall_sign: float = 0.6
    overall_watch: float = 1.5
    overall_act: float = 1.8
    overall_act_percent: float = 3
    # Shared by all sets of a day (sleep, food, time of day), so it does not average out within a session.
    day_sd: float = 0.025

    # Same load and repetitions at fewer RIR than before, on average over the sets that can be compared.
    rir_drop: float = 2.0
    rir_drop_exposures: int = 2
    # How often the same work must have been done before: one report of effort is a repetition off by itself.
    rir_drop_before: int = 2

    # Share of an exposure's sets under the prescribed lowest repetitions: two of three.
    floor_share: float = 0.66
    floor_exposures: int = 2
    floor_days: int = 28

    # Check-ins: mean distance of the recent ones from the baseline before them, in SDs of one check-in.
    check_in_recent_days: int = 10
    check_in_recent_minimum: int = 3
    check_in_usual: BaselineSettings = USUAL
    check_in_sign: float = -0.6
    check_in_watch: float = -1.0
    check_in_act: float = -1.5
    # The latest days must be below too, so that the end of a bad stretch ends the flag.
    check_in_latest_days: int = 4
    check_in_latest: float = -1.2

    # Still sore on the day the same group is trained again.
    soreness_days: int = 14
    soreness_gap_days: int = 5
    soreness_exposures: int = 1
    soreness_weight: float = 0.8

    # Pain 0-10. Over 5 is excessive and 3 borderline in published monitoring (Thomee 1997, Silbernagel 2007: MEMORY).
    pain_days: int = 28
    pain_stop_over: float = 5
    pain_watch_from: float = 3
    pain_rising_reports: int = 3
    pain_clear_days: int = 14

    missed_days: int = 14
    missed_recent_days: int = 7
    missed_watch: int = 2
    missed_act: int = 3

    # Done volume of a week over this share of the upper end of its target range.
    volume_over_share: float = 1.25


DEFAULT = Thresholds()
