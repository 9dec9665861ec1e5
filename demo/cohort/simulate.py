"""Runs one client through a plan, day by day, each target taken from what the client logged before."""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from random import Random
from typing import Protocol

from demo.cohort.body import Body, set_dose
from demo.cohort.diary import Diary
from demo.cohort.facts import exposures_of
from demo.cohort.lifter import Lifter
from demo.cohort.plan import CohortSession, CohortSlot
from demo.cohort.profile import Profile
from demo.cohort.records import DayTruth, LoggedSession, LoggedSlot, SimulatedHistory
from periodization.deload import DEFAULT as DELOAD
from periodization.deload import reduced_sets
from periodization.flags import CheckInFact, Exposure, PainFact
from periodization.progression import Prescription, Target, next_target

DAYS_PER_WEEK = 7
# Chosen: the progression looks at the last exposures of the exercise only.
EXPOSURES_READ = 6
SKIPS_WHEN_ILL = 0.6


class Coach(Protocol):
    """Decides at the start of a day whether a deload week begins."""

    def starts_deload(self, day: date, history: SimulatedHistory) -> bool:
        """Return True to reduce this day's session and those of the six days after it."""


def usual_week(plan: Sequence[CohortSession]) -> float:
    """Return the sets of an average week, deloads left out, at one dose a set."""
    days = {s.day.toordinal() // DAYS_PER_WEEK for s in plan if not s.deload}
    return sum(s.sets for s in plan if not s.deload) / max(1, len(days))


def simulate_client(
    profile: Profile,
    plan: Sequence[CohortSession],
    seed: int,
    coach: Coach | None = None,
    name: str = "client",
    targets: Mapping[str, Target] | None = None,
) -> SimulatedHistory:
    """Return log and truth from the plan's first day to its last week's end.

    `targets` replaces the first target of an exercise (by slug). Without a coach nothing is ever reduced beyond the
    plan's own deloads. The same arguments give the same history.
    """
    return _Run(profile, plan, seed, coach, name, dict(targets or {})).run()


class _Run:
    def __init__(
        self,
        profile: Profile,
        plan: Sequence[CohortSession],
        seed: int,
        coach: Coach | None,
        name: str,
        targets: dict[str, Target],
    ) -> None:
        self.profile, self.coach, self.name, self.first_targets = profile, coach, name, targets
        self.seed = f"{name}/{profile.kind}/{seed}"
        self.plan: dict[date, list[CohortSession]] = {}
        for session in sorted(plan, key=lambda s: (s.day, s.session_id)):
            self.plan.setdefault(session.day, []).append(session)
        self.planned_deloads = {_monday(s.day) for s in plan if s.deload}
        self.body = Body(profile, Random(f"{self.seed}/body"), usual_week(plan))
        self.diary = Diary(profile, Random(f"{self.seed}/diary"), name)
        self.attendance = Random(f"{self.seed}/attendance")
        self.lifters: dict[str, Lifter] = {}
        self.exposures: dict[str, list[Exposure]] = {}
        self.log = SimulatedHistory((), (), (), (), ())
        self.deload_until = date.min

    def run(self) -> SimulatedHistory:
        days = sorted(self.plan)
        last = days[-1] + timedelta(DAYS_PER_WEEK - 1 - days[-1].weekday())
        truths: list[DayTruth] = []
        sessions: list[LoggedSession] = []
        missed: list[CohortSession] = []
        check_ins: list[CheckInFact] = []
        pains: list[PainFact] = []
        day, index = days[0], 0
        while day <= last:
            self.body.wake()
            self.diary.wake(self.body)
            if (check_in := self.diary.check_in(day, self.body)) and not self._stopped(index):
                check_ins.append(check_in)
            if self.coach is not None:
                so_far = SimulatedHistory(tuple(truths), tuple(sessions), tuple(missed), tuple(check_ins), tuple(pains))
                if day > self.deload_until and self.coach.starts_deload(day, so_far):
                    self.deload_until = day + timedelta(DELOAD.days - 1)
            deload = day <= self.deload_until
            truths.append(self._truth(day, deload or _monday(day) in self.planned_deloads))
            for session in self.plan.get(day, []):
                asked = _reduced(session) if deload and not session.deload else session
                if self._misses(index):
                    missed.append(asked)
                    continue
                done = self._train(asked)
                sessions.append(done)
                pains += [
                    p
                    for s in done.slots
                    if (p := self.diary.pain(day, index, s.exercise, asked.slots[s.slot].groups)) is not None
                ]
            day, index = day + timedelta(1), index + 1
        return SimulatedHistory(tuple(truths), tuple(sessions), tuple(missed), tuple(check_ins), tuple(pains))

    def _stopped(self, index: int) -> bool:
        return self.profile.stops_on is not None and index >= self.profile.stops_on

    def _misses(self, index: int) -> bool:
        draw = self.attendance.random()
        away = any(start <= index < start + length for start, length in self.profile.away)
        chance = self.profile.attendance * (1 - SKIPS_WHEN_ILL if self.body.ill else 1)
        return away or self._stopped(index) or draw > chance

    def _truth(self, day: date, deload: bool) -> DayTruth:
        body = self.body
        return DayTruth(day, body.fitness, body.fatigue, body.excess, body.ill, deload)

    def _train(self, session: CohortSession) -> LoggedSession:
        strength, dose, slots, sore, least = self.body.log_strength, 0.0, [], [], 10.0
        for number, slot in enumerate(session.slots):
            lifter = self.lifters.setdefault(slot.exercise, Lifter(self.profile, slot, self.seed))
            target = self._target(slot, session)
            ids = [f"{self.name}/{session.session_id}/{number}/{n}" for n in range(1, slot.sets + 1)]
            lost = sum(stall.lost(slot.exercise, self.body.day_index) for stall in self.profile.stalls)
            sets, one_rm, left = lifter.perform(slot, target, strength - lost, ids)
            slots.append(LoggedSlot(number, slot.exercise, target, tuple(sets), one_rm, left))
            dose += sum(set_dose(s.true_rir) for s in sets)
            least = min(least, *(s.true_rir for s in sets)) if sets else least
            sore += [(group, float(len(sets)) * (1.0 if i == 0 else 0.5)) for i, group in enumerate(slot.groups)]
        self.body.train(dose)
        self.diary.trained(sore)
        rpe = min(10.0, max(2.0, round(8.5 - 0.8 * least + 40 * max(0.0, self.body.excess - 0.02))))
        done = LoggedSession(session, tuple(slots), float(rpe), 12 + 4 * session.sets)
        for exposure in exposures_of(done):
            self.exposures.setdefault(exposure.exercise_id, []).append(exposure)
        return done

    def _target(self, slot: CohortSlot, session: CohortSession) -> Target:
        asked = Prescription(slot.sets, slot.reps_min, slot.reps_max, slot.rir_min, slot.rir_max)
        known = self.exposures.get(slot.exercise, [])[-EXPOSURES_READ:]
        if not known and slot.exercise in self.first_targets:
            return self.first_targets[slot.exercise]
        share = DELOAD.load_share if session.deload else None
        return next_target(known, asked, slot.ladder, (), session.day, slot.body_kg, share)


def _monday(day: date) -> date:
    return day - timedelta(day.weekday())


def _reduced(session: CohortSession) -> CohortSession:
    """Return the session as a deload asks for it: fewer sets, more in reserve, the same exercises."""
    slots = tuple(
        CohortSlot(
            s.exercise,
            s.groups,
            reduced_sets(s.sets, DELOAD.sets_share),
            s.reps_min,
            s.reps_max,
            s.rir_min + DELOAD.rir_up,
            s.rir_max + DELOAD.rir_up,
            s.ladder,
            s.one_rm_kg,
            s.body_kg,
        )
        for s in session.slots
    )
    return CohortSession(session.session_id, session.day, slots, True)
