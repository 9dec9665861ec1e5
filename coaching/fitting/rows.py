"""The fitting page: a row a client, with what differs, why, and what it does to the week."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from django.conf import settings

from accounts.models import Client
from coaching.fitting.facts import load_facts
from coaching.fitting.forms import ChoiceForm
from coaching.fitting.pool import Library, load_library
from periodization.rules import Reason
from programs.document import Document, Week, document_from_json
from programs.document.adapt import slots_in
from programs.fit.effect import Effect, effect, fullest_week, longest_day, week_named, week_volume
from programs.fit.fit import Fitted, fit
from programs.fit.model import Choice, ClientFacts, Proposal
from programs.models import Fitting
from programs.sentences import Words
from programs.services.adaptation_words import fit_names, what_of, why_of
from programs.services.targets import target_ranges_for

# So many plain swaps are folded. Chosen.
FOLDED = 3


@dataclass(frozen=True, slots=True)
class Difference:
    proposal: Proposal
    what: Reason
    why: list[Reason]

    @property
    def plain(self) -> bool:
        """Say whether it swaps what is not at hand for what is as good, as proposed: no loss, nothing harder."""
        one = self.proposal
        swapped = one.change.kind == "swap" and [why.code for why in self.why] == ["fit_equipment"]
        return swapped and one.accepted and not one.edited


@dataclass(frozen=True, slots=True)
class FitRow:
    """`differences` without the starting loads, which are many and alike: `starts`."""

    client: Client
    facts: ClientFacts
    fitted: Fitted
    differences: list[Difference]
    starts: list[Difference]
    effect: Effect | None
    words: Words
    form: ChoiceForm | None = None

    @property
    def plain(self) -> list[Difference]:
        """Exercises that are not at hand, for others that train the same as easily: nothing to decide. Few are left
        where they stand."""
        found = [one for one in self.differences if one.plain]
        return found if len(found) >= FOLDED else []

    @property
    def telling(self) -> list[Difference]:
        """The differences a coach should read, all but the plain ones."""
        plain = self.plain
        return [one for one in self.differences if one not in plain]

    @property
    def declined(self) -> int:
        return sum(not one.accepted for one in self.fitted.proposals)

    @property
    def edited(self) -> bool:
        return any(one.edited or not one.accepted for one in self.fitted.proposals)


@dataclass(frozen=True, slots=True)
class FitCopies:
    """Every client's copy, by their id, and what it was worked out from."""

    document: Document
    library: Library
    facts: dict[int, ClientFacts]
    fitted: dict[int, Fitted]


@dataclass(frozen=True, slots=True)
class FitPage:
    rows: list[FitRow]
    library: Library
    document: Document
    week: Week | None


def fit_copies(fitting: Fitting, clients: Sequence[Client]) -> FitCopies:
    """Work out every client's copy: nine queries, however many clients. The program is read as it stands now."""
    program = fitting.program
    document = document_from_json(program.document)
    library = load_library(program.practice, (slot.exercise for slot in slots_in(document)))
    facts = load_facts(clients, fitting.starts_on)
    fitted = {
        client.pk: fit(
            document,
            facts[client.pk],
            library.pool,
            written_for=program.written_for,
            formula=settings.E1RM_EQUATION,
            choices=choices_for(fitting, client),
        )
        for client in clients
    }
    return FitCopies(document, library, facts, fitted)


def fit_page(fitting: Fitting, clients: Sequence[Client]) -> FitPage:
    """Return every client's copy with what there is to say about it; no query more than `fit_copies`."""
    copies = fit_copies(fitting, clients)
    document, library = copies.document, copies.library
    week = fullest_week(document)
    exercises = library.pool.exercises
    before = week_volume(week, exercises, library.anatomy) if week else {}
    minutes = longest_day(week, exercises) if week else 0.0
    names = fit_names(()) | dict(library.limit_names)
    exercise_names = {str(pk): one.name for pk, one in exercises.items()}
    rows = []
    for client in clients:
        fitted = copies.fitted[client.pk]
        targets = target_ranges_for(client, library.anatomy.groups)
        done = None
        if week:
            own = week_named(fitted.usual, week.key)
            done = effect(before, minutes, own, exercises, library.anatomy, targets)
        words = Words(client.user.load_unit, library.anatomy.groups, exercise_names, names)
        said = [difference(one) for one in fitted.proposals]
        rows.append(
            FitRow(
                client,
                copies.facts[client.pk],
                fitted,
                [one for one in said if one.proposal.change.kind != "start"],
                [one for one in said if one.proposal.change.kind == "start"],
                done,
                words,
            )
        )
    return FitPage(rows, library, document, week)


def difference(one: Proposal) -> Difference:
    """Return a proposal as what and why."""
    return Difference(one, what_of(one.change, one.params), why_of(one.reason, one.params))


def choices_for(fitting: Fitting, client: Client) -> dict[str, Choice]:
    """Return what the coach said for one client."""
    said: Mapping[str, Mapping[str, Any]] = fitting.choices.get(str(client.pk), {})
    return {name: Choice(bool(one.get("accept", True)), one.get("to"), one.get("number")) for name, one in said.items()}


def with_form(page: FitPage, client: Client, form: ChoiceForm) -> FitPage:
    """Return the page with a form that was refused, as typed, in its client's row."""
    return replace(page, rows=[replace(row, form=form) if row.client == client else row for row in page.rows])
