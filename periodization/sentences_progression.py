"""English templates of the next target, in repetitions, held seconds and steps."""

from periodization.progression.target import COUNTED_CODES

_WAYS = "Ways on, for coach and client to choose: "
_WAYS_IN_REPS = (
    _WAYS + "lower it more slowly, pause where it is hardest, load the muscle at longer length (start lighter there), "
    "one more set"
)
# What stands in brackets is said when its numbers are known.
_STEP = ", small weights to add if there are any[, the next load, {next_load} kg, for about {next_reps}]"
_MOST = "[, {most} at most]"
_WAYS_HELD = _WAYS + "a position that is harder to hold, one more set"
_NO_STEP = "{reps} repetitions at this load, and the next one up is {percent} % more, over the {limit} % limit: stay. "
_NO_LOAD = "{reps} repetitions, and there is no heavier load here: stay. "
_ONCE = "Some sets ended under {floor} repetitions, and there is no lighter load here: stay. If it happens again, "
_TWICE = "Sets ended under {floor} repetitions twice in a row, and there is no lighter load here: "
_IN_REPS: dict[str, str] = {
    "start_given": "Begin with {load} kg: from your estimated maximum, less a margin, as your coach accepted it.",
    "start_lighter": "Begin this plan with {load} kg, a little lighter, as your coach accepted it.",
    "first_time": "First time: choose a light load, find {reps} repetitions with {rir} in reserve, and log it.",
    "first_time_no_load": "First time: go up to {reps} repetitions, leave {rir} in reserve, and log it.",
    "first_time_assisted": (
        "First time: set plenty of assistance, find {reps} repetitions with {rir} in reserve, and log it."
    ),
    "add_reps": "All sets done at this load with effort to spare: aim for {reps} repetitions.",
    "add_load": "All sets reached {top} repetitions: {percent} % more load, starting again at {reps} repetitions.",
    "add_load_effort": "Every set left at least {spare} over the {rir} in reserve wanted: {percent} % more load.",
    "step_too_large": (
        "All sets reached {top} repetitions, but the next load up is {percent} % more, over the {limit} % limit: aim "
        "for {reps} repetitions instead" + _MOST + "."
    ),
    "no_load_to_compare": (
        "All sets reached {top} repetitions without a load to compare with: aim for {reps} repetitions" + _MOST + "."
    ),
    "no_heavier_load": (
        "All sets reached {top} repetitions and there is no heavier load here: aim for {reps} repetitions" + _MOST + "."
    ),
    "limit_step": _NO_STEP + _WAYS_IN_REPS + _STEP + ", or a harder variant.",
    "limit_step_variant": _NO_STEP + _WAYS_IN_REPS + _STEP + ", or the harder variant: {variant}.",
    "limit_top": _NO_LOAD + _WAYS_IN_REPS + ", or a harder variant.",
    "limit_top_variant": _NO_LOAD + _WAYS_IN_REPS + ", or the harder variant: {variant}.",
    "limit_body": (
        "{reps} repetitions, and body mass is unknown, so a step of load cannot be judged: stay, and record body mass."
    ),
    "hold_effort": "Sets were harder than prescribed ({rir} in reserve, at least {wanted} wanted): stay at this load.",
    "hold_under_floor": "Some sets ended under {floor} repetitions: stay at this load.",
    "floor_no_lighter": _ONCE + "change to an easier variant.",
    "floor_no_lighter_variant": _ONCE + "change to the easier variant: {variant}.",
    "easier_variant": _TWICE + "an easier variant fits better.",
    "easier_variant_variant": _TWICE + "the easier variant fits better: {variant}.",
    "hold_effort_unknown": "Repetitions in reserve are missing, so nothing is raised: same load, same repetitions.",
    "hold_sets_missing": "{done} of {sets} sets were logged, so nothing is raised: same load, same repetitions.",
    "hold_doubtful": "The last logged load is {percent} % off those before it. Check it; until then, the earlier load.",
    "hold_body_unknown": "Body mass is unknown, so a step of load cannot be judged: aim for {reps} repetitions.",
    "hold_flag": "A flag stands on this exercise or on recovery: nothing is raised.",
    "hold_nothing_logged": "No working set was logged the last time: the load from before it.",
    "hold_deload": "Back from the deload: the load from before it.",
    "reduce_effort": "Sets left {rir} in reserve where {wanted} were wanted: lighter, by the published per-set table.",
    "reduce_effort_untabled": "Sets left {rir} in reserve where {wanted} were wanted: a little lighter.",
    "reduce_under_floor": "Sets ended under {floor} repetitions twice in a row: lighter.",
    "reduce_after_break": "{days} days since the last time: start again lighter.",
    "new_range": "More repetitions are asked for than before: this load should allow {reps} with {rir} in reserve.",
    "deload_week": "Deload: lighter, and well away from failure.",
    "hold_lightest": "This is the lightest load there is: stay, and stop each set early.",
    "hold_lightest_variant": (
        "This is the lightest load there is: stay and stop each set early, or change to the easier variant: {variant}."
    ),
    "stop_pain": "Stopped because of reported pain. Seek the advice of a licensed clinician before going on.",
}


def _counted(template: str, unit: str, same: str) -> str:
    text = template.replace("Repetitions in reserve are missing", "The effort is missing")
    text = text.replace(_WAYS_IN_REPS, _WAYS_HELD)
    return text.replace("} repetitions", f"}} {unit}").replace("same repetitions", same)


PROGRESSION_SENTENCES: dict[str, str] = {
    **_IN_REPS,
    **{f"{code}_seconds": _counted(_IN_REPS[code], "s", "same time") for code in sorted(COUNTED_CODES)},
    **{f"{code}_steps": _counted(_IN_REPS[code], "steps", "same number of steps") for code in sorted(COUNTED_CODES)},
}
