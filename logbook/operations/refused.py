"""Why an operation was not carried out."""

from typing import Any

from django.utils.translation import gettext as _


class Refused(Exception):
    """Nothing was saved. `code` is stable and for programs, `title` is in the reader's language."""

    def __init__(
        self, code: str, title: str, *, status: int = 422, errors: dict[str, Any] | None = None, **members: Any
    ):
        super().__init__(title)
        self.code, self.title, self.status, self.errors, self.members = code, title, status, errors, members


def unknown(code: str, title: str) -> Refused:
    """Refuse in the same words what does not exist and what belongs to somebody else."""
    return Refused(code, title, status=404)


def unknown_session() -> Refused:
    return unknown("unknown_session", _("There is no such session."))


def unknown_set() -> Refused:
    return unknown("unknown_set", _("There is no such set."))


def id_not_usable() -> Refused:
    """One answer for every clash, so that trying ids teaches nothing about other people's rows."""
    return Refused("id_not_usable", _("This id cannot be used. Make a new one."), status=409)
