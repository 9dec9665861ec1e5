"""What an answer did, in words."""

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from coaching.models import Decision


def accepted_words(decision: Decision) -> str:
    """Say what an accepted question did."""
    if decision.kind == "contact":
        return _("Written: the client reads it on their day.")
    sessions = len({one["session"] for one in decision.changes})
    text = ngettext("Accepted: %(n)s session changed.", "Accepted: %(n)s sessions changed.", sessions)
    return text % {"n": sessions}
