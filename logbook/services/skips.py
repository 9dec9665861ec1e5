"""Leave an exercise of the plan out, and take that back."""

from django.utils.translation import gettext as _

from logbook.models import SlotSkip
from logbook.operations.refused import unknown
from logbook.operations.write import Applied, Write
from logbook.services.sessions import own_session
from programs.models import PlannedSlot
from programs.services.revision_undo import was_planned


def slot_skip(*, write: Write) -> Applied:
    """Mark a slot of the session's plan as left out; the later mark by the client's clock stands."""
    session = own_session(write)
    slot = PlannedSlot.objects.filter(
        pk=write.data["slot"], session__client=write.client, session=session.planned_id
    ).first()
    if slot is None and was_planned(session.planned_id, write.data["slot"]):
        # A revision took it out: it is left out already.
        gone = {"slot": write.data["slot"], "session": str(session.pk), "skipped": write.data["skipped"]}
        return Applied({"skip": gone | {"reason": write.data["reason"]}, "won": False}, session.date)
    if slot is None:
        raise unknown("unknown_slot", _("There is no such place in the plan."))
    values = {"skipped": write.data["skipped"], "reason": write.data["reason"], "edited_at": write.at}
    row, made = SlotSkip.objects.select_for_update().get_or_create(
        session=session, slot=slot, defaults={"client": write.client, **values}
    )
    won = made or write.at >= row.edited_at
    if won and not made:
        for name, value in values.items():
            setattr(row, name, value)
        row.save()
    result = {"slot": slot.pk, "session": str(session.pk), "skipped": row.skipped, "reason": row.reason}
    return Applied({"skip": result, "won": won}, session.date)
