"""English templates per reason code. The shell translates the template, then fills it."""

import re
from collections.abc import Mapping

from periodization.flags.sentences import FLAG_SENTENCES
from periodization.rules import Filling, Reason
from periodization.sentences_draft import DRAFT_SENTENCES
from periodization.sentences_plan import PLAN_SENTENCES
from periodization.sentences_progression import PROGRESSION_SENTENCES
from periodization.sentences_questions import QUESTION_SENTENCES
from periodization.sentences_targets import TARGET_SENTENCES

_OPTIONAL = re.compile(r"\[([^\[\]]*)\]")
_FIELD = re.compile(r"\{(\w+)\}")

SENTENCES: dict[str, str] = {
    **DRAFT_SENTENCES,
    **FLAG_SENTENCES,
    **PLAN_SENTENCES,
    **PROGRESSION_SENTENCES,
    **QUESTION_SENTENCES,
    **TARGET_SENTENCES,
    # strength
    "reps_over_range": "More repetitions to failure than the equation is trusted for.",
    "far_from_failure": "The set stopped far from failure, where reports of repetitions in reserve are often wrong.",
    "effort_unknown": "No repetitions in reserve were given, so none were added.",
    # spacing
    "group_due_too_soon": "{group} is trained again after {hours} h; the plan's minimum is {minimum_hours} h.",
    # load
    "monotony_undefined": "Monotony is not defined for this week: every day carried the same load.",
    "load_is_description": "Load is shown as description. It does not say who will be hurt, and drives no flag.",
    # trend
    "trend_none": "No sets to estimate from yet.",
    "trend_too_few": "{points} sessions are too few for a trend; {minimum} are needed.",
    "trend_rising": "Rising: between {low} % and {high} % a week.",
    "trend_falling": "Falling: between {low} % and {high} % a week.",
    "trend_flat": "Flat: between {low} % and {high} % a week, so no growth that matters.",
    "trend_unclear": "Unclear: between {low} % and {high} % a week, so neither growth nor a plateau is shown.",
    # readiness
    "check_in_no_baseline": "{count} earlier check-ins; {minimum} are needed before a day can be compared.",
    "check_in_usual": "{total} of 25, within the usual range around {median}.",
    "check_in_below": "{total} of 25, below the usual {median}.",
    "check_in_above": "{total} of 25, above the usual {median}.",
}

# Where one is said otherwise: the number that decides, and the sentence when it is 1.
SINGULAR: dict[str, tuple[str, str]] = {
    "trend_too_few": ("points", "{points} session is too few for a trend; {minimum} are needed."),
    "check_in_no_baseline": (
        "count",
        "{count} earlier check-in; {minimum} are needed before a day can be compared.",
    ),
    "hold_sets_missing": (
        "sets",
        "{done} of {sets} set was logged, so nothing is raised: same load, same repetitions.",
    ),
    "ramp_over_ceiling": ("sets", "{sets} set is over the target range of {floor} to {ceiling}."),
    "ramp_under_floor": ("sets", "{sets} set is under the target range of {floor} to {ceiling}."),
    "ramp_deload_under_floor": (
        "sets",
        "{sets} set is under the target range of {floor} to {ceiling}, as a deload may be.",
    ),
}


def shown(params: Mapping[str, Filling]) -> dict[str, str | int]:
    """Return the values as they stand in a sentence: 16.0 is written 16, a list with commas."""
    return {key: _shown(value) for key, value in params.items()}


def _shown(value: Filling) -> str | int:
    if isinstance(value, tuple):
        return ", ".join(value)
    return f"{value:g}" if isinstance(value, float) else value


def sentence(reason: Reason, templates: Mapping[str, str] = SENTENCES) -> str:
    """Return the reason in words; a code without a template is a KeyError, so that tests find it."""
    template = templates[reason.code]
    number, one = SINGULAR.get(reason.code, ("", ""))
    if number and reason.params.get(number) == 1:
        template = one
    return with_known(template, reason.params).format(**shown(reason.params))


def with_known(template: str, params: Mapping[str, object]) -> str:
    """Return a template without the parts in [brackets] whose fields `params` do not fill: rows of an earlier version
    of a rule hold fewer values, and some values can be said only of some loads."""
    return _OPTIONAL.sub(
        lambda part: part[1] if all(name in params for name in _FIELD.findall(part[1])) else "", template
    )
