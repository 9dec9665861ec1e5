"""Every client's copy worked out, and the rows of the fitting page."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from django.conf import settings

from accounts.models import Client
from coaching.fitting.facts import load_facts
from coaching.fitting.forms import ChoiceForm
from coaching.fitting.pool import Library, load_library
from coaching.fitting.row import Difference, FitRow
from coaching.fitting.together import Together, gathered, with_shared
from programs.document import Document, Week, document_from_json
from programs.document.adapt import slots_in
from programs.fit.effect import effect, fullest_week, longest_day, week_named, week_volume
from programs.fit.fit import Fitted, fit
from programs.fit.model import Choice, ClientFacts, Proposal
from programs.models import Fitting
from programs.sentences import Words
from programs.services.adaptation_words import fit_names, what_of, why_of
from programs.services.targets import target_ranges_for


@dataclass(frozen=True, slots=True)
class FitCopies:
    """Every client's copy, by their id, and what it was worked out from."""

    document: Document
    library: Library
    facts: dict[int, ClientFacts]
    fitted: dict[int, Fitted]


@dataclass(frozen=True, slots=True)
class FitPage:
    """`groups` are what is proposed alike to several of the clients that are on the page."""

    rows: list[FitRow]
    groups: list[Together]
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
                said,
                done,
                words,
            )
        )
    groups = gathered(rows)
    return FitPage(with_shared(rows, groups), groups, library, document, week)


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
