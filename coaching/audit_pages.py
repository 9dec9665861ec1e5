"""Words for the audit of the coach's desk."""

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

PAGES: dict[str, Promise] = {
    "answer-many": _("questions about the plan, several at once"),
    "client-comments": _("comments"),
    "client-decisions": _("the client's decisions"),
    "client-plot-file": _("a table of the client's numbers, taken out"),
    "fit-again": _("how the client's plan is fitted again"),
    "fitting": _("how a program is fitted to clients"),
    "fitting-client": _("how a program is fitted to the client"),
    "fitting-make": _("a program, fitted and given to clients"),
    "client-screening": _("the client's health questions"),
    "client-sessions": _("the client's sessions"),
    "client-strength": _("the client's strength"),
    "client-volume": _("the client's weekly volume"),
    "client-well-being": _("the client's check-ins, body mass and pain"),
    "client-erase": _("the erasing of a client"),
    "client-export": _("nothing; everything of the client was taken out"),
    "client-notes": _("the coaches' notes"),
    "client-page": _("the client's page"),
    "decision": _("a decision"),
    "decision-undo": _("a decision, taken back"),
    "comments-seen": _("comments, marked as read"),
    "note": _("a coaches' note"),
    "note-remove": _("a coaches' note, taken out"),
    "erasure": _("what was erased"),
    "practice-data": _("what was erased"),
    "practice-export": _("nothing; everything of the practice was taken out"),
    "prompt": _("a question about the plan"),
    "prompt-accept": _("the plan, by accepting a question"),
    "prompt-refuse": _("a question, refused"),
    "view-remove": _("a saved view of the week, removed"),
    "view-save": _("a saved view of the week"),
    "why-flag": _("what a flag rests on"),
    "why": _("what a number rests on"),
}
