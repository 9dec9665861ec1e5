"""Take an import of past training back, whole, as long as nothing of it has been touched."""

from django.db import transaction
from django.db.models import Exists, OuterRef, Q
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from accounts.models import Client, User
from logbook.models import BodyMass, CheckIn, LogImport, Session, SetHistory, SetLog
from logbook.services.past_save import REASON
from logbook.services.recompute import recompute_request


class Touched(Exception):
    """Something of the import was changed since, or something was added to it; the text says what."""


@transaction.atomic
def past_take_back(*, row: LogImport, by: User) -> LogImport:
    """Remove every row that the import added; Touched, with nothing removed, when one of them is not as it came."""
    Client.objects.select_for_update().get(pk=row.client_id)
    row = LogImport.objects.select_for_update().get(pk=row.pk)
    if row.taken_back_at:
        return row
    if touched := touched_since(row):
        raise Touched(" ".join(touched))
    # In one statement: nothing points at these sets (one with a history was touched), and the collector of delete()
    # would fetch all twenty thousand of them to find that out.
    sets = SetLog.objects.filter(imported=row)
    sets._raw_delete(sets.db)
    Session.objects.filter(imported=row).delete()
    CheckIn.objects.filter(imported=row).delete()
    BodyMass.objects.filter(imported=row).delete()
    row.taken_back_at, row.taken_back_by = timezone.now(), by
    row.save(update_fields=["taken_back_at", "taken_back_by"])
    recompute_request(client_id=row.client_id, since=row.first_day, reason=REASON, large=True)
    return row


def touched_since(row: LogImport) -> list[str]:
    """Say what was changed since or added to the import; empty when it can be taken back."""
    changed = ~Q(edited_at=row.at)
    sets = SetLog.objects.filter(imported=row)
    edited = sets.filter(changed | Q(deleted_at__isnull=False) | Exists(SetHistory.objects.filter(set=OuterRef("pk"))))
    sessions = Session.objects.filter(imported=row)
    noted = sessions.filter(
        changed | ~Q(note_edited_at=row.at) | Q(planned__isnull=False) | Q(pain_reports__isnull=False)
        | Q(comments__isnull=False)
    ).distinct()  # fmt: skip
    added = SetLog.objects.filter(session__imported=row).exclude(imported=row)
    days = (
        CheckIn.objects.filter(changed, imported=row).count() + BodyMass.objects.filter(changed, imported=row).count()
    )
    found = [
        (edited.count(), ngettext("%(count)d set was changed.", "%(count)d sets were changed.", edited.count())),
        (noted.count(), ngettext("%(count)d session was changed or commented on.",
                                 "%(count)d sessions were changed or commented on.", noted.count())),
        (added.count(), ngettext("%(count)d set was added to its sessions.",
                                 "%(count)d sets were added to its sessions.", added.count())),
        (days, ngettext("%(count)d check-in or body mass was changed.",
                        "%(count)d check-ins or body masses were changed.", days)),
    ]  # fmt: skip
    said = [words % {"count": count} for count, words in found if count]
    return [*said, _("What was brought in stays.")] if said else []
