"""English templates of drafts: demands, relaxations, needs."""

DRAFT_SENTENCES: dict[str, str] = {
    # what was asked for
    "draft_demand_floor": "At least {amount} sets a week for {subject}.",
    "draft_demand_ceiling": "At most {amount} sets a week for {subject}.",
    "draft_demand_minutes": "{subject} takes {amount} minutes at most.",
    "draft_demand_session_cap": "No muscle group gets more than {amount} sets on one day.",
    "draft_demand_sets_most": "An exercise has at most {amount} sets on one day.",
    "draft_demand_slots": "A day has at most {amount} exercises.",
    "draft_demand_include": "{subject} is in the week.",
    "draft_demand_avoid": "{subject} is not in the week.",
    "draft_demand_action": "No exercise moves by {subject}.",
    "draft_demand_tag": "No exercise with this joint stress or position: {subject}.",
    "draft_demand_equipment": "There is no equipment “{subject}”.",
    "draft_demand_count_low": "{day} has at least {amount} exercises that train {subject} directly.",
    "draft_demand_count_high": "{day} has at most {amount} exercises that train {subject} directly.",
    "draft_demand_heads": "Every head of {subject} is trained directly.",
    "draft_demand_long": "At least one exercise loads {subject} while long.",
    "draft_demand_spacing": "No group is trained directly twice within {amount} h.",
    "draft_demand_unjudged": "No exercise whose joint stresses and positions nobody has judged yet.",
    # what would help
    "draft_relax_floor": "Ask for no more than {enough} sets of {subject} instead of {amount}.",
    "draft_relax_ceiling": "Allow up to {enough} sets of {subject} instead of {amount}.",
    "draft_relax_minutes": "Give {subject} {enough} minutes instead of {amount}.",
    "draft_relax_session_cap": "Allow {enough} sets of a muscle group on one day instead of {amount}.",
    "draft_relax_sets_most": "Allow {enough} sets of one exercise instead of {amount}.",
    "draft_relax_slots": "Allow {enough} exercises on a day instead of {amount}.",
    "draft_relax_include": "Do without {subject}.",
    "draft_relax_avoid": "Allow {subject}.",
    "draft_relax_action": "Allow exercises that move by {subject}, if the reason for the limit permits.",
    "draft_relax_tag": "Allow this joint stress or position, if the reason for the limit permits: {subject}.",
    "draft_relax_unjudged": "Judge the joint stresses and positions of your own exercises first.",
    "draft_relax_equipment": "With the equipment “{subject}” it would be possible.",
    "draft_relax_count_low": "Ask {day} for {enough} exercises for {subject} instead of {amount}.",
    "draft_relax_count_high": "Allow {day} {enough} exercises for {subject} instead of {amount}.",
    "draft_relax_heads": "Do not insist on every head of {subject}.",
    "draft_relax_long": "Do not insist on loading {subject} while long.",
    "draft_relax_spacing": "Do not insist on {amount} h between two days for the same group.",
    # what a slot is for
    "draft_need_floor": "Gives {sets} of the {bound} sets a week that {subject} should have at least.",
    "draft_need_volume": "Takes {subject} further up in its range, which ends at {bound} sets.",
    "draft_need_heads": "Nothing else in the week trains directly: {subject}.",
    "draft_need_long": "Nothing else in the week loads while long: {subject}.",
    "draft_need_variety": "Nothing else in the week trains {subject}.",
    "draft_need_share": "Gives {sets} sets for {subject}, which others in the week could give too.",
    # what the bound leaves out
    "draft_bound_pairs": (
        "Pairs are made once the exercises are chosen: the distance from the best is that of the choice before pairing."
    ),
}
