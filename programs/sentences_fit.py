"""English templates of what differs in a client's copy of a program, and why. Read by the coach and the client."""

FIT_SENTENCES: dict[str, str] = {
    "fit_what_swap": "{other} instead of {exercise}",
    "fit_what_leave_out": "{exercise} is left out",
    "fit_what_one_side": "{other}, weaker side first, instead of {exercise}",
    "fit_what_weaker_first": "{exercise} with the weaker side first",
    "fit_what_scale": "{percent} % of the sets as written",
    "fit_what_fewer": "Fewer sets, to save time: {less} fewer each (exercises a week: {slots})",
    "fit_what_rir": "{rir} more repetitions in reserve",
    "fit_what_pair": "In pairs, to save time (pairs a week: {pairs})",
    "fit_what_careful": "First time with {rir} more repetitions in reserve (exercises: {count})",
    "fit_what_start": "{exercise} begins with {load} kg",
    "fit_limit": "Kept from: {limits}.",
    "fit_limit_out": "Kept from: {limits}. Nothing open trains the same closely enough.",
    "fit_pain": "Pain of {score} of 10 was reported ({site}). A licensed clinician should look at it.",
    "fit_pain_out": (
        "Pain of {score} of 10 was reported ({site}). A licensed clinician should look at it; nothing open trains the "
        "same closely enough."
    ),
    "fit_equipment": "Not at hand: {equipment}.",
    "fit_equipment_out": "Not at hand: {equipment}. Nothing at hand trains the same closely enough.",
    "fit_less": "It keeps {heads} % of the work for the same muscle heads.",
    "fit_less_long": (
        "It keeps {heads} % of the work for the same muscle heads, and {long} % of the work done with the muscle long."
    ),
    "fit_harder": "It is a harder variant.",
    "fit_side": "The {side} side was {percent} % weaker; the stronger side does no more than the weaker.",
    "fit_side_swap": "The {side} side was {percent} % weaker in {exercise}; the stronger side does no more.",
    "fit_status_sets": "Written for: {written_for}; this copy is for: {status}.",
    "fit_status_rir": "Effort is harder to judge for a novice, so a set ends a little earlier.",
    "fit_careful": "New, or not done for twelve weeks; begin lighter than you think: {exercises}.",
    "fit_careful_slot": "New, or not done for twelve weeks; begin lighter than you think.",
    "fit_start": "From an e1RM of {e1rm} kg that was {days} days old, less {margin} %.",
    "fit_start_same_day": "From an e1RM of {e1rm} kg of the same day, less {margin} %.",
    "fit_since_limit": "Added since: to keep from {limits}.",
    "fit_since_over": "No longer to keep from: {limits}.",
    "fit_since_equipment": "The equipment has changed.",
    "fit_since_minutes": "A session may take {minutes} min now; it was {before}.",
    "fit_since_minutes_any": "Nothing is said now of how long a session may take; it was {before} min.",
    "fit_since_minutes_new": "A session may take {minutes} min now; nothing was said before.",
    "fit_since_status": "Training status is {status} now; it was {before}.",
    "fit_pair": "A session may take {minutes} min; as written the longest takes {before}, now about {after}.",
    "fit_fewer": "A session may take {minutes} min; as written the longest takes {before}, now about {after}.",
}

# Where one is said otherwise: the number that decides, and the sentence when it is 1.
FIT_SINGULAR: dict[str, tuple[str, str]] = {
    "fit_what_rir": ("rir", "{rir} more repetition in reserve"),
    "fit_what_careful": ("rir", "First time with {rir} more repetition in reserve (exercises: {count})"),
    "fit_start": ("days", "From an e1RM of {e1rm} kg that was {days} day old, less {margin} %."),
}
