"""English templates of deload prompts and ramps."""

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
    # ramp
    "ramp_over_ceiling": "{sets} sets are over the target range of {floor} to {ceiling}.",
    "ramp_under_floor": "{sets} sets are under the target range of {floor} to {ceiling}.",
    "ramp_deload_under_floor": "{sets} sets are under the target range of {floor} to {ceiling}, as a deload may be.",
}
