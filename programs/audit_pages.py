"""Words for the audit of plans and the library."""

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

PAGES: dict[str, Promise] = {
    "assignment-change": _("the plan: dates, pause or end"),
    "assignment-detail": _("the plan"),
    "assignment-handout": _("the plan's hand-out"),
    "assignment-handout-pdf": _("the plan's hand-out"),
    "assignment-handout-links": _("links to the plan's hand-out"),
    "client-targets": _("priorities and target ranges"),
    "draft-again": _("a drafted week"),
    "draft-detail": _("a drafted week"),
    "draft-new": _("a drafted week"),
    "draft-relax": _("a drafted week"),
    "draft-stop": _("a drafted week"),
    "equipment-archive": _("the equipment list"),
    "equipment-create": _("the equipment list"),
    "equipment-edit": _("the equipment list"),
    "equipment-restore": _("the equipment list"),
    "exercise-archive": _("the exercise library"),
    "exercise-create": _("the exercise library"),
    "exercise-edit": _("the exercise library"),
    "exercise-grades": _("the exercise library"),
    "exercise-restore": _("the exercise library"),
    "handout-link-withdraw": _("a link to a hand-out"),
    "program-add": _("a program"),
    "program-archive": _("a program"),
    "program-assign": _("a program, given to clients"),
    "program-change": _("a program"),
    "program-copy": _("a program"),
    "program-handout-links": _("links to a program's hand-out"),
    "program-import": _("a program brought in from a file"),
    "program-outlook": _("a program"),
    "program-pick": _("the choice of a program for the client"),
    "program-settings": _("a program"),
}
