"""Which rows of plans stand as a decision wrote them: a later version of the program must not overwrite them unseen."""

from collections.abc import Iterable

from django.utils.formats import date_format
from django.utils.translation import gettext as _

from coaching.models import Decision


def decision_claims(clients: Iterable[int]) -> dict[int, str]:
    """Return for each row that a standing decision wrote (by its id) which decision that was, in words (one query)."""
    rows = Decision.objects.filter(client__in=list(clients), undone_at=None, answer=Decision.Answer.ACCEPT)
    result: dict[int, str] = {}
    for decision in rows.select_related("coach").order_by("decided_at"):
        words = _("decision of %(date)s by %(coach)s") % {
            "date": date_format(decision.decided_at, _("j M")),
            "coach": decision.coach,
        }
        result.update((change["slot"], words) for change in decision.changes if "slot" in change)
    return result
