"""The desk's own sentences; `{name}` is filled after translation."""

from django.utils.translation import gettext_noop as _

DESK_SENTENCES: dict[str, str] = {
    "prompt_open": _("A deload prompt waits for your decision."),
    "no_plan_ahead": _("Nothing is planned for the coming week."),
    "no_session_lately": _("No session in the last two weeks."),
    "effort_harder": _("Sets ended {gap} repetitions closer to failure than prescribed, on average."),
    "effort_easier": _("Sets ended {gap} repetitions further from failure than prescribed, on average."),
    "groups_under": _("Muscles under their weekly range: {count}."),
    "groups_over": _("Muscles over their weekly range: {count}."),
}
