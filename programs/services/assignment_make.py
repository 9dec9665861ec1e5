"""Give clients their own dated copies of a program."""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from django.db import transaction
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from accounts.models import Client, User
from programs.document import Slot, document_from_json, labels
from programs.models import Assignment, PlannedSession, PlannedSlot, Program
from programs.services.assignment_dates import DatedDay, dated_days, days_a_week
from programs.services.assignment_end import end_all
from programs.signals import plan_changed


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
) -> list[Assignment]:
    """Copy the program for each client as dated sessions, one weekday (Monday 0) for each training day of a week.

    With `end_running`, what a client follows until then ends on the day before. Raises AssignError. Not checked here:
    that `assigned_by` coaches the clients. Queries do not grow with the clients (but for batches of inserts).
    """
    clients = list({client.pk: client for client in clients}.values())
    days = _days(program, starts_on, weekdays)
    if not clients:
        raise AssignError(_("Choose at least one client."))
    _refuse_a_second_copy(program, clients, starts_on)
    if end_running:
        # Also what was to end on a later day than the new one begins.
        end_all(Assignment.objects.filter(client__in=clients).not_over(starts_on), starts_on - timedelta(days=1))
    assignments = Assignment.objects.bulk_create(
        Assignment(
            client=client,
            program=program,
            program_version=program.version,
            name=program.name,
            starts_on=starts_on,
            weekdays=list(weekdays),
            created_by=assigned_by,
        )
        for client in clients
    )
    sessions = PlannedSession.objects.bulk_create(
        [_session(assignment, day) for assignment in assignments for day in days], batch_size=500
    )
    slots = [_planned_slots(day) for day in days]
    PlannedSlot.objects.bulk_create(
        [
            PlannedSlot(session=session, **fields)
            for number, session in enumerate(sessions)
            for fields in slots[number % len(days)]
        ],
        batch_size=500,
    )
    for client in clients:
        plan_changed.send(sender=Assignment, client_id=client.pk, since=starts_on)
    return assignments


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


def _days(program: Program, starts_on: date, weekdays: Sequence[int]) -> list[DatedDay]:
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
    days = list(dated_days(document, starts_on, weekdays))
    if not days:
        raise AssignError(_("There is no exercise in this program yet."))
    return days


def _session(assignment: Assignment, day: DatedDay) -> PlannedSession:
    return PlannedSession(
        assignment=assignment,
        client_id=assignment.client_id,
        date=day.date,
        day_name=day.day.name,
        block_name=day.block.name,
        block_number=day.block_number,
        week_number=day.week_number,
        day_number=day.day_number,
        week_key=day.week.key,
        day_key=day.day.key,
        program_version=assignment.program_version,
        is_deload=day.week.deload,
    )


def _planned_slots(day: DatedDay) -> list[dict[str, object]]:
    marks = labels(day.day.slots)
    return [
        planned_fields(slot, mark, place)
        for place, (slot, mark) in enumerate(zip(day.day.slots, marks, strict=True), 1)
    ]


def planned_fields(slot: Slot, label: str, position: int) -> dict[str, object]:
    """Return a slot of the document as the fields of a PlannedSlot."""
    return {
        "slot_key": slot.key,
        "position": position,
        "pair": label,
        "exercise_id": slot.exercise,
        "sets_min": slot.sets[0] if slot.sets[0] != slot.sets[1] else None,
        "sets": slot.sets[1],
        "reps_min": slot.reps[0],
        "reps_max": slot.reps[1],
        "rir_min": slot.rir[0],
        "rir_max": slot.rir[1],
        "rest_s": slot.rest_s,
        "tempo": slot.tempo,
        "note": slot.note,
    }
