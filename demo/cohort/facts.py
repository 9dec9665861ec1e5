"""The log as the rules read it: the same arithmetic as the worker's, from the log alone."""

from collections.abc import Iterable

from demo.cohort.plan import CohortSlot
from demo.cohort.records import LoggedSession, LoggedSet, SimulatedHistory
from periodization.flags import ClientHistory, Exposure, PlannedFact, SetFact
from periodization.loads import effective_load
from periodization.strength import estimate_e1rm
from periodization.trend import observation_sd


def set_fact(one: LoggedSet, slot: CohortSlot) -> SetFact:
    """Return a logged set with its e1RM and noise, None where nothing can be estimated."""
    moved = effective_load(slot.ladder, one.load_kg, slot.body_kg)
    found = None if moved is None else estimate_e1rm(moved, one.reps, one.rir)
    sd = None if found is None else observation_sd(found.reps_to_failure, one.rir, found.formula)
    return SetFact(one.set_id, one.load_kg, one.reps, one.rir, found.e1rm_kg if found else None, sd)


def exposures_of(session: LoggedSession) -> list[Exposure]:
    """Return one exposure per slot done."""
    result = []
    for done in session.slots:
        slot = session.planned.slots[done.slot]
        result.append(
            Exposure(
                session.planned.day,
                session.planned.session_id,
                slot.exercise,
                slot.groups,
                slot.reps_min,
                slot.reps_max,
                slot.rir_min,
                slot.rir_max,
                tuple(set_fact(s, slot) for s in done.sets),
                slot.sets,
                session.planned.deload,
            )
        )
    return result


def client_history(history: SimulatedHistory, exposures: Iterable[Exposure] | None = None) -> ClientHistory:
    """Return everything the flag rules may look at."""
    if exposures is None:
        exposures = (e for s in history.sessions for e in exposures_of(s))
    done = [PlannedFact(s.planned.session_id, s.planned.day, True) for s in history.sessions]
    missed = [PlannedFact(m.session_id, m.day, False) for m in history.missed]
    return ClientHistory(tuple(exposures), history.check_ins, history.pains, tuple(done + missed))
