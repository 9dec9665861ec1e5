"""English templates of questions to the coach."""

QUESTION_SENTENCES: dict[str, str] = {
    "contact_silent": "No session for {days} days, though sessions are planned.",
    "hold_signs": "{exercise}: {count} signs of lower performance stand together.",
    "swap_pain": (
        "{exercise}: pain of {score} of 10 was reported ({site}). Leave it out until a clinician says otherwise."
    ),
    "swap_no_diagnosis": (
        "What loads the same place can hurt too: the client stops at pain, and a licensed clinician judges it."
    ),
    "variant_easier": (
        "{exercise}: sets ended under the lowest of the range ({bound}) in {count} sessions in a row, the last at "
        "{fewest}, and there is nothing lighter to take off."
    ),
    "variant_harder": (
        "{exercise}: every set went over the highest of the range ({bound}) in {count} sessions in a row, the last to "
        "{fewest}, with effort to spare, and there is no load to add."
    ),
    "progress_kept": "{done} of {due} due sessions were done, and effort was not harder than prescribed.",
    "progress_kept_before": "The week before, {done} of {due} due sessions were done.",
    "progress_under": "{group}: {planned} sets are planned next week, under the floor of {floor}.",
}
