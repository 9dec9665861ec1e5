"""The desk's own sentences; `{name}` is filled after translation."""

from django.utils.translation import gettext_noop as _

DESK_SENTENCES: dict[str, str] = {
    "prompt_open": _("A deload prompt waits for your decision."),
    "prompt_open_swap": _("An exercise that hurts waits to be exchanged."),
    "prompt_open_variant": _("An exercise that no load fits any more waits for a variant."),
    "prompt_open_contact": _("A word with the client is proposed."),
    "prompt_open_hold": _("Holding an exercise back is proposed."),
    "prompt_open_progress": _("Adding sets is proposed."),
    "no_plan_ahead": _("Nothing is planned for the coming week."),
    "no_session_lately": _("No session in the last two weeks."),
    "effort_harder": _("Sets ended {gap} repetitions closer to failure than prescribed, on average."),
    "effort_easier": _("Sets ended {gap} repetitions further from failure than prescribed, on average."),
    "groups_under": _("Muscles under their weekly range: {count}."),
    "groups_over": _("Muscles over their weekly range: {count}."),
    "estimate_not_in_repetitions": _("No estimate: held seconds and steps have no repetition maximum."),
    "estimate_body_mass_unknown": _("No estimate: body mass is unknown, and it is part of the load. Record body mass."),
    "estimate_no_load": _("No estimate: no load was written down."),
    "estimate_no_load_left": _("No estimate: the assistance is as much as the body, so no load is left."),
    "estimate_reps_out_of_range": _("No estimate: too many repetitions to failure, or none."),
}
