"""English templates of deload prompts, progression and ramps."""

PLAN_SENTENCES: dict[str, str] = {
    # deload
    "deload_pain": "Reported pain asks for a stop. Seek the advice of a licensed clinician before going on.",
    "deload_signs": "{count} independent signs stand together:",
    "deload_sign_performance": "performance is under what was expected;",
    "deload_sign_check_in": "check-ins are below the client's own usual;",
    "deload_sign_soreness": "soreness lasts into the next training of the same muscles.",
    "deload_planned": "The plan has a deload here.",
    "deload_due": "{weeks} weeks of training since the last deload; coaches report one every 4 to 6.",
    "deload_no_diagnosis": (
        "This is a question about training, not a diagnosis. Illness, little food and poor sleep show the same way."
    ),
    # progression
    "first_time": "First time: choose a light load, find {reps} repetitions with {rir} in reserve, and log it.",
    "add_reps": "All sets done at this load with effort to spare: aim for {reps} repetitions.",
    "add_load": "All sets reached {top} repetitions: {percent} % more load, starting again at {reps}.",
    "add_load_effort": "Every set left at least {spare} over the {rir} in reserve wanted: {percent} % more load.",
    "step_too_large": (
        "All sets reached {top} repetitions, but the next load up is {percent} % more, over the {limit} % limit: aim "
        "for {reps} repetitions instead."
    ),
    "no_load_to_compare": "All sets reached {top} repetitions without a load to compare with: aim for {reps}.",
    "no_heavier_load": "All sets reached {top} repetitions and there is no heavier load here: aim for {reps}.",
    "reps_at_limit": "{reps} repetitions at the heaviest fitting load: hold, or choose a harder variant.",
    "hold_effort": "Sets were harder than prescribed ({rir} in reserve, at least {wanted} wanted): stay at this load.",
    "hold_under_floor": "Some sets ended under {floor} repetitions: stay at this load.",
    "hold_effort_unknown": "Repetitions in reserve are missing, so nothing is raised: same load, same repetitions.",
    "hold_sets_missing": "{done} of {sets} sets were logged, so nothing is raised: same load, same repetitions.",
    "hold_doubtful": "The last logged load is {percent} % off those before it. Check it; until then, the earlier load.",
    "hold_body_unknown": "Body mass is unknown, so a step of load cannot be judged: aim for {reps} repetitions.",
    "hold_flag": "A flag stands on this exercise or on recovery: nothing is raised.",
    "hold_nothing_logged": "No working set was logged the last time: the load from before it.",
    "hold_deload": "Back from the deload: the load from before it.",
    "reduce_effort": "Sets left {rir} in reserve where {wanted} were wanted: lighter, by the published per-set table.",
    "reduce_under_floor": "Sets ended under {floor} repetitions twice in a row: lighter.",
    "reduce_after_break": "{days} days since the last time: start again lighter.",
    "new_range": "More repetitions are asked for than before: this load should allow {reps} with {rir} in reserve.",
    "deload_week": "Deload: lighter, and well away from failure.",
    "hold_lightest": "This is the lightest load there is: stay, and stop each set early.",
    "stop_pain": "Stopped because of reported pain. Seek the advice of a licensed clinician before going on.",
    # ramp
    "ramp_over_ceiling": "{sets} sets are over the target range of {floor} to {ceiling}.",
    "ramp_under_floor": "{sets} sets are under the target range of {floor} to {ceiling}.",
    "ramp_deload_under_floor": "{sets} sets are under the target range of {floor} to {ceiling}, as a deload may be.",
}
