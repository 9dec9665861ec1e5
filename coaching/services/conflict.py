"""Why a decision could not be made: somebody or something was faster."""

from django.utils.translation import gettext as _

from coaching.models import Decision


class Conflict(Exception):
    """`message` says in words what happened; nothing was changed."""

    def __init__(self, code: str, message: str) -> None:
        super().__init__(message)
        self.code, self.message = code, message


def decided_already(decision: Decision) -> Conflict:
    text = _("%(coach)s has answered this prompt already: %(answer)s.")
    return Conflict("decided", text % {"coach": decision.coach, "answer": decision.get_answer_display()})


def proposal_changed() -> Conflict:
    return Conflict(
        "changed", _("The plan or the log has changed since this page was opened. Look at the new numbers first.")
    )


def prompt_gone() -> Conflict:
    return Conflict("gone", _("This prompt no longer stands: the numbers have changed since this page was opened."))


def nothing_left() -> Conflict:
    return Conflict("late", _("No session of that week is left to change."))


def undone_already() -> Conflict:
    return Conflict("undone", _("This decision has been taken back already."))


def too_late() -> Conflict:
    return Conflict("too late", _("A decision can be taken back within a week. Change the plan itself."))
