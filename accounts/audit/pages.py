"""Words for the pages of the people room."""

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

PAGES: dict[str, Promise] = {
    "client-coach": _("who trains the client"),
    "client-edit": _("the client's record"),
    "client-invite": _("an invitation of a client"),
    "coach-invite": _("an invitation of a coach"),
    "cover-end": _("who stands in for whom"),
    "cover-new": _("who stands in for whom"),
    "engagement-end": _("who trains the client"),
    "hand-over": _("who trains the client"),
    "invitation-detail": _("an invitation"),
    "invitation-resend": _("an invitation"),
    "invitation-withdraw": _("an invitation"),
    "membership-edit": _("a coach's role or work here"),
    "membership-leave": _("their own work here"),
    "practice": _("the practice's settings"),
}
