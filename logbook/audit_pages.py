"""Words for the audit of the log."""

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

PAGES: dict[str, Promise] = {
    "api-v1:check-in-list": _("check-ins"),
    "api-v1:comment-list": _("comments"),
    "api-v1:plan": _("the planned sessions"),
    "api-v1:session-detail": _("a session and its sets"),
    "api-v1:session-list": _("the list of sessions"),
    "api-v1:set-detail": _("a set and its earlier values"),
    "client-past": _("past training, brought in from a table"),
    "past-run": _("past training, on its way into the log"),
    "past-run-stop": _("past training, stopped on its way"),
    "past-take-back": _("past training, taken back"),
    "session-comment": _("a comment on a session"),
    "set-correct": _("a set, to correct it"),
    "set-right": _("a set, to say that its load is right"),
    "performed-session": _("a session and its sets"),
}
