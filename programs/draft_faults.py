"""Why a draft came to no end: a code and its parameters, worded for whoever reads it."""

from typing import Any

from django.utils.translation import gettext, gettext_noop

FAULTS = {
    "often": gettext_noop("It was begun several times and came to no end. Give it less time, or ask for less."),
    "senseless": gettext_noop("The request makes no sense any more: %(why)s"),
    "software": gettext_noop("A fault in the software. The request is kept: change it, or try again."),
}


def fault_words(code: str, params: dict[str, Any]) -> str:
    """Return the fault in the reader's language. What is no code is words already: of a draft before there were any."""
    return gettext(FAULTS[code]) % params if code in FAULTS else code
