"""Begin, change and end a fitting. What it proposes is worked out anew each time (programs/fit)."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from typing import Any

from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from accounts.models import Client, User
from programs.models import Assignment, Fitting, Program
from programs.services.adaptations import Adapted
from programs.services.assignment_make import AssignError, document_to_assign, program_assign

# A page with more could not be read, and would not be answered within a second.
MOST_CLIENTS = 60


@transaction.atomic
def fitting_begin(
    *,
    program: Program,
    clients: Iterable[Client],
    starts_on: date,
    weekdays: Sequence[int],
    end_running: bool,
    author: User,
) -> Fitting:
    """Keep who is to get the program and when. Raises AssignError as assigning would. Not checked here: that `author`
    coaches the clients."""
    chosen = list({client.pk: client for client in clients}.values())
    document_to_assign(program, starts_on, weekdays)
    if not chosen:
        raise AssignError(_("Choose at least one client."))
    if len(chosen) > MOST_CLIENTS:
        raise AssignError(_("At most %(most)s clients at once. Take some off.") % {"most": MOST_CLIENTS})
    fitting = Fitting.objects.create(
        program=program, author=author, starts_on=starts_on, weekdays=list(weekdays), end_running=end_running
    )
    fitting.clients.set(chosen)
    return fitting


@transaction.atomic
def fitting_choose(*, fitting: Fitting, client: Client, choices: Mapping[str, Mapping[str, Any]]) -> None:
    """Keep what the coach said for one client, in place of what was said before."""
    row = _open(fitting)
    row.choices = {key: value for key, value in row.choices.items() if key != str(client.pk)}
    if choices:
        row.choices[str(client.pk)] = {name: dict(said) for name, said in choices.items()}
    row.save(update_fields=["choices"])


@transaction.atomic
def fitting_choose_together(*, fitting: Fitting, choices: Mapping[int, Mapping[str, Mapping[str, Any] | None]]) -> None:
    """Keep what the coach said to the same proposals of several clients, by client's and proposal's id; what is empty
    is as proposed again. What was said to others is left."""
    row = _open(fitting)
    for client, some in choices.items():
        said = {**row.choices.get(str(client), {}), **some}
        row.choices[str(client)] = {name: dict(one) for name, one in said.items() if one}
    row.choices = {key: value for key, value in row.choices.items() if value}
    row.save(update_fields=["choices"])


@transaction.atomic
def fitting_drop(*, fitting: Fitting, client: Client) -> None:
    """Take a client off the list, with what was said for them."""
    row = _open(fitting)
    row.clients.remove(client)
    row.choices.pop(str(client.pk), None)
    row.save(update_fields=["choices"])


@transaction.atomic
def fitting_assign(
    *, fitting: Fitting, clients: Sequence[Client], adaptations: Mapping[int, Sequence[Adapted]], by: User
) -> list[Assignment]:
    """Assign the program with these differences, once. Raises AssignError."""
    row = _open(fitting)
    made = program_assign(
        program=row.program,
        clients=clients,
        starts_on=row.starts_on,
        weekdays=row.weekdays,
        assigned_by=by,
        end_running=row.end_running,
        adaptations=adaptations,
        fitting=row,
    )
    row.assigned_at = timezone.now()
    row.save(update_fields=["assigned_at"])
    return made


def _open(fitting: Fitting) -> Fitting:
    row = Fitting.objects.select_for_update(of=("self",)).select_related("program").get(pk=fitting.pk)
    if row.assigned_at is not None:
        raise assigned_already()
    return row


def assigned_already() -> AssignError:
    return AssignError(_("These clients have the program already. Assign it anew to change something."))
