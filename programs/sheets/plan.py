"""What a table would become, with what has to be mended before: the base of every preview."""

from dataclasses import dataclass, field, replace

from django.utils.translation import gettext as _

from programs.sheets.names import Catalogue
from programs.sheets.problems import Problem, Reading, Unknown, rows_words
from programs.sheets.table import Table

# More than these are counted and not listed: nobody mends a thousand cells on a page.
MOST_SHOWN = 100
MOST_UNKNOWN = 40


@dataclass(slots=True)
class TablePlan:
    """`wrong` counts the problems, of which the first are listed; `unknown_more` the names that are not listed."""

    table: Table
    problems: list[Problem] = field(default_factory=list)
    wrong: int = 0
    unknown: list[Unknown] = field(default_factory=list)
    unknown_more: int = 0
    headings_wrong: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    @property
    def dates(self) -> list[Problem]:
        """The cells that a spreadsheet made dates of, and that can be taken back together."""
        return [one for one in self.problems if one.suggestion]

    def take(self, found: Reading, catalogue: Catalogue | None = None) -> None:
        """Take over what reading the table found wrong."""
        self.headings_wrong = found.headings_wrong
        if found.left_out:
            self.notes.append(_("Not known, and left out: %(names)s.") % {"names": ", ".join(found.left_out)})
        found.problems.sort(key=lambda one: (one.index, one.place))
        self.problems = [_with_exercise(one, self.table, found) for one in found.problems[:MOST_SHOWN]]
        self.wrong = len(found.problems)
        names = sorted(found.missing, key=lambda name: found.missing[name][0])
        shown = names[:MOST_UNKNOWN] if catalogue else []
        self.unknown = [Unknown(name, name, catalogue.near(name), rows_words(found.missing[name])) for name in shown]
        self.unknown_more = len(names) - len(shown)


def _with_exercise(problem: Problem, table: Table, found: Reading) -> Problem:
    place = found.places.get("exercise", problem.place)
    return replace(
        problem, exercise="" if place == problem.place else found.text(table, problem.index, "exercise")[:60]
    )
