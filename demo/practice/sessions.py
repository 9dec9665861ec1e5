"""The simulated sets as the phone would have sent them."""

import datetime as dt
import uuid
from collections.abc import Iterator
from random import Random

from accounts.models import Client
from demo.cohort.records import LoggedSession, LoggedSlot, SimulatedHistory
from demo.practice.plan import AskedPlan
from logbook.models import PainReport, Session, SetLog, Side
from programs.models import Laterality, PlannedSlot

NAMESPACE = uuid.uuid5(uuid.NAMESPACE_URL, "urn:sinewright:demo")
START = dt.time(17, 40)
SET_TAKES = dt.timedelta(seconds=40)


def made_id(*parts: object) -> uuid.UUID:
    """Return the same id for the same invented thing on every machine."""
    return uuid.uuid5(NAMESPACE, "/".join(map(str, parts)))


def write_sessions(client: Client, plan: AskedPlan, history: SimulatedHistory, seed: int) -> None:
    """Store sessions, sets and pain reports of `history` (three batches)."""
    rng = Random(f"{client.user.email}/{seed}")
    sessions, sets = [], []
    for done in history.sessions:
        planned = plan.planned[done.planned.session_id]
        start = dt.datetime.combine(done.planned.day, START, client.user.zone)
        start += dt.timedelta(minutes=rng.randrange(-35, 50))
        end = start + dt.timedelta(minutes=done.minutes)
        session = Session(
            id=made_id(client.user.email, planned.date, planned.day_number),
            client=client,
            planned=planned,
            date=done.planned.day,
            started_at=start,
            finished_at=end,
            session_rpe=done.rpe,
            minutes=done.minutes,
        )
        sessions.append(session)
        sets += sets_of(session, done, plan.slots[done.planned.session_id], rng)
    Session.objects.bulk_create(sessions, batch_size=500)
    SetLog.objects.bulk_create(sets, batch_size=500)
    write_pains(client, plan, history, sessions)


def sets_of(session: Session, done: LoggedSession, slots: list[PlannedSlot], rng: Random) -> Iterator[SetLog]:
    at = session.started_at + dt.timedelta(minutes=6)
    for performed in done.slots:
        slot = slots[performed.slot]
        for side_sets in rows_of(session, performed, slot, rng):
            for row in side_sets:
                at += SET_TAKES
                row.performed_at = row.edited_at = at
                yield row
            at += dt.timedelta(seconds=slot.rest_s)


def rows_of(session: Session, performed: LoggedSlot, slot: PlannedSlot, rng: Random) -> Iterator[list[SetLog]]:
    """Yield each set as one row, or as a row a side where sides are trained one after the other."""
    for one in performed.sets:
        single = slot.exercise.laterality == Laterality.SINGLE
        rows = []
        for side in (Side.LEFT, Side.RIGHT) if single else (Side.BOTH,):
            # The left side of these people is now and then a repetition behind.
            behind = 1 if side == Side.LEFT and one.reps > 1 and rng.random() < 0.3 else 0
            rows.append(
                SetLog(
                    id=made_id(one.set_id, side),
                    client=session.client,
                    session=session,
                    slot=slot,
                    exercise=slot.exercise,
                    number=one.number,
                    side=side,
                    load=one.load,
                    unit=one.unit,
                    load_kg=one.load_kg,
                    reps=min(100, one.reps - behind),
                    rir=one.rir,
                )
            )
        yield rows


def write_pains(client: Client, plan: AskedPlan, history: SimulatedHistory, sessions: list[Session]) -> None:
    by_day = {session.date: session for session in sessions}
    exercises = {slot.exercise.slug: slot.exercise for slots in plan.slots.values() for slot in slots}
    PainReport.objects.bulk_create(
        PainReport(
            id=made_id(pain.id),
            client=client,
            session=by_day.get(pain.day),
            exercise=exercises.get(pain.exercise_id or ""),
            site=pain.site,
            side=PainReport.Side.RIGHT,
            score=round(pain.score),
            reported_at=by_day[pain.day].finished_at,
        )
        for pain in history.pains
    )
