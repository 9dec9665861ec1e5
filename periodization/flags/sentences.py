"""English templates of the flags. The page names the subject (client, exercise, group) beside the sentence."""

FLAG_SENTENCES: dict[str, str] = {
    "performance_under_expected": (
        "{count} exposures in a row under the expected interval, the last {percent} % under what was expected."
    ),
    "clears_performance": "Clears with one exposure back inside the expected interval.",
    "performance_overall": (
        "Over the last {sessions} sessions the {exposures} exercises done were {percent} % under what was expected."
    ),
    "clears_performance_overall": "Clears when the recent sessions are back near what is expected.",
    "same_work_lower_rir": (
        "The same load and repetitions left {drop} fewer repetitions in reserve than usual, {count} exposures in a row."
    ),
    "clears_effort": "Clears when the same work leaves as many repetitions in reserve as usual.",
    "reps_under_floor": (
        "{under} of {sets} sets ended under the prescribed {floor} repetitions, over {count} exposures in a row."
    ),
    "clears_reps_under_floor": "Clears with one exposure in which most sets reach the prescribed repetitions.",
    "check_ins_below": "The last {count} check-ins average {mean} of 25, below the usual {median}.",
    "clears_check_in": "Clears when the recent check-ins are back near the usual.",
    "sore_into_next_exposure": "Still sore when the same muscles were trained again (times in {days} days: {count}).",
    "clears_soreness": "Clears when the muscles are no longer sore on the day they are trained again.",
    "pain_over": (
        "Pain of {score} of 10 was reported with {exercises}. Leave that out and seek the advice of a licensed "
        "clinician."
    ),
    "pain_over_unnamed": (
        "Pain of {score} of 10 was reported, with no exercise named. Leave out what brings it on and seek the advice "
        "of a licensed clinician."
    ),
    "pain_rising": (
        "Pain rose over {count} reports, to {score} of 10, with {exercises}. Leave that out and seek the advice of a "
        "licensed clinician."
    ),
    "pain_rising_unnamed": (
        "Pain rose over {count} reports, to {score} of 10, with no exercise named. Leave out what brings it on and "
        "seek the advice of a licensed clinician."
    ),
    "pain_watch": (
        "Pain of up to {score} of 10 was reported with {exercises}. Watch it; do not train into rising pain."
    ),
    "pain_watch_unnamed": (
        "Pain of up to {score} of 10 was reported, with no exercise named. Watch it; do not train into rising pain."
    ),
    "clears_pain_stop": (
        "Clears when a licensed clinician has advised, and {days} days have passed without a report of {under} or more."
    ),
    "clears_pain_watch": "Clears after {days} days without a report of {under} or more.",
    "sessions_missed": "{missed} of {planned} planned sessions in the last {days} days were not done.",
    "clears_missed": "Clears when fewer than {under} of the last {days} days' sessions are missed.",
    "volume_far_over": "{sets} hard sets this week, far over the target range of {floor} to {ceiling}.",
    "clears_volume": "Clears in a week of at most {ceiling} hard sets.",
}
