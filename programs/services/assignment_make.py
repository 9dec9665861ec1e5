"""Give clients their own dated copies of a program."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, timedelta

from django.db import transaction
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from accounts.models import Client, User
from programs.document import Document, document_from_json
from programs.document.adapt import adapt, slots_in, start_loads
from programs.models import Adaptation, Assignment, Fitting, PlannedSession, PlannedSlot, Program
from programs.services.adaptations import Adapted, rows_to_make
from programs.services.assignment_dates import dated_days, days_a_week
from programs.services.assignment_end import end_untold
from programs.services.client_limits import closed_slots, judged, limits_by_client
from programs.services.dated_rows import DatedRows, dated_rows
from programs.services.fit_since import facts_kept
from programs.services.insert_rows import insert_rows
from programs.services.limits import Limits
from programs.signals import plans_changed


class AssignError(ValueError):
    """The program cannot be assigned so; the message says why."""


@transaction.atomic
def program_assign(
    *,
    program: Program,
    clients: Iterable[Client],
    starts_on: date,
    weekdays: Sequence[int],
    assigned_by: User,
    end_running: bool = False,
    adaptations: Mapping[int, Sequence[Adapted]] | None = None,
    fitting: Fitting | None = None,
) -> list[Assignment]:
    """Copy the program for each client as dated sessions, one weekday (Monday 0) for each training day of a week.

    With `end_running`, what a client follows until then ends on the day before. `adaptations` are what is done
    differently, by the client's id, and `fitting` where it was decided. Raises AssignError, also when a client would
    get an exercise that their limits close. Not checked here: that `assigned_by` coaches the clients. Queries do not
    grow with the clients (but for batches of inserts).
    """
    clients = list({client.pk: client for client in clients}.values())
    document = document_to_assign(program, starts_on, weekdays)
    if not clients:
        raise AssignError(_("Choose at least one client."))
    _refuse_a_second_copy(program, clients, starts_on)
    fitted = {client.pk: list((adaptations or {}).get(client.pk, ())) for client in clients}
    documents = {pk: adapt(document, [one.change for one in fitted[pk]]) for pk in fitted}
    limits = limits_by_client(clients, starts_on)
    _refuse_what_is_closed(clients, documents, limits)
    since = {client.pk: starts_on for client in clients}
    if end_running:
        # Also what was to end on a later day than the new one begins.
        running = Assignment.objects.filter(client__in=clients).not_over(starts_on)
        since |= end_untold(running, starts_on - timedelta(days=1))
    known = facts_kept(clients, limits)
    assignments = Assignment.objects.bulk_create(
        Assignment(
            client=client,
            program=program,
            program_version=program.version,
            name=program.name,
            starts_on=starts_on,
            weekdays=list(weekdays),
            fitted_to=known[client.pk],
            fitting=fitting,
            created_by=assigned_by,
        )
        for client in clients
    )
    Adaptation.objects.bulk_create(
        [row for one in assignments for row in rows_to_make(one, fitted[one.client_id], assigned_by)], batch_size=500
    )
    _insert({one: _plan(one, documents[one.client_id], fitted[one.client_id]) for one in assignments})
    plans_changed.send(sender=Assignment, since=since)
    return assignments


def _plan(assignment: Assignment, document: Document, fitted: Sequence[Adapted]) -> list[DatedRows]:
    return dated_rows(
        document,
        assignment.starts_on,
        assignment.weekdays,
        assignment.program_version,
        start_loads(document, [one.change for one in fitted]),
    )


def _insert(plans: Mapping[Assignment, list[DatedRows]]) -> None:
    insert_rows(
        PlannedSession,
        ({"assignment_id": one.pk, "client_id": one.client_id, **day.session} for one in plans for day in plans[one]),
    )
    # Where in the program a session comes from tells the sessions of one new copy apart.
    place = ("assignment_id", "block_number", "week_number", "day_number")
    rows = PlannedSession.objects.filter(assignment__in=plans).order_by().values_list("pk", *place)
    made = {tuple(told): pk for pk, *told in rows}
    insert_rows(
        PlannedSlot,
        (
            {"session_id": made[one.pk, *(day.session[name] for name in place[1:])], **fields}
            for one in plans
            for day in plans[one]
            for fields in day.slots
        ),
    )


def _refuse_what_is_closed(
    clients: list[Client], documents: Mapping[int, Document], limits: Mapping[int, Limits]
) -> None:
    """Raise AssignError when a client would get what their limits close. The last door, behind every page."""
    known = judged(slot.exercise for pk in limits for slot in slots_in(documents[pk])) if limits else {}
    found = []
    for client in clients:
        closed = closed_slots(documents[client.pk], limits.get(client.pk, Limits()), known)
        if names := sorted({one.exercise.name for one in closed}):
            found.append(f"{client} ({', '.join(names)})")
    if found:
        words = "; ".join(found)
        raise AssignError(
            _("Closed to these clients by their limits: %(words)s. Swap or leave out; nothing was changed.")
            % {"words": words}
        )


def _refuse_a_second_copy(program: Program, clients: list[Client], starts_on: date) -> None:
    """Raise AssignError for a button pressed twice; the lock makes one of two requests the first."""
    locked = Client.objects.select_for_update(no_key=True, of=("self",)).filter(pk__in=[one.pk for one in clients])
    list(locked.order_by("pk"))
    copies = Assignment.objects.filter(client__in=clients, program=program, starts_on=starts_on)
    if taken := sorted(str(one.client) for one in copies.not_over(starts_on).select_related("client__user")):
        names = ", ".join(taken)
        raise AssignError(_("Assigned already from that day on: %(names)s. Nothing was changed.") % {"names": names})


def running_for(clients: Iterable[Client], day: date) -> dict[int, list[Assignment]]:
    """Return what each client (by id) follows on `day` or later, or has paused (one query)."""
    result: dict[int, list[Assignment]] = {}
    for one in Assignment.objects.filter(client__in=list(clients)).not_over(day).order_by("starts_on", "pk"):
        result.setdefault(one.client_id, []).append(one)
    return result


def document_to_assign(program: Program, starts_on: date, weekdays: Sequence[int]) -> Document:
    """Return the program's document; AssignError says why it cannot be assigned so."""
    document = document_from_json(program.document)
    needed = days_a_week(document)
    if len(set(weekdays)) != len(weekdays) or not all(0 <= day <= 6 for day in weekdays):
        raise AssignError(_("Choose a different weekday for each training day."))
    if len(weekdays) != needed:
        raise AssignError(
            ngettext("Choose %(count)s weekday.", "Choose %(count)s weekdays.", needed) % {"count": needed}
        )
    if program.archived_at:
        raise AssignError(_("This program is put away. Take it out of the archive first."))
    if next(dated_days(document, starts_on, weekdays), None) is None:
        raise AssignError(_("There is no exercise in this program yet."))
    return document
