"""A small catalogue, plans and logs for the desk's tests: enough of each kind to show every state of its pages."""

import datetime as dt
import random
import uuid
from types import SimpleNamespace
from typing import Any

from django.utils import timezone

from accounts.models import Client, User
from logbook.models import BodyMass, CheckIn, PainReport, RecomputeRequest, Session, SetLog
from programs.models import (
    Assignment,
    Equipment,
    Exercise,
    Head,
    HeadCredit,
    Muscle,
    MuscleGroup,
    PlannedSession,
    PlannedSlot,
)

# (group, muscle, heads); the deltoid's heads lie in different groups, as they do in the library.
ANATOMY = [
    ("chest", "pectoralis-major", ["sternocostal", "clavicular"]),
    ("lats", "latissimus-dorsi", ["latissimus"]),
    ("front-delt", "deltoid", ["deltoid-clavicular"]),
    ("side-delt", "deltoid", ["deltoid-acromial"]),
    ("triceps", "triceps-brachii", ["triceps-long", "triceps-lateral"]),
    ("biceps", "biceps-brachii", ["biceps-long", "biceps-short"]),
    ("quadriceps", "quadriceps-femoris", ["rectus-femoris", "vastus-lateralis"]),
]
BAR = {"kind": "plates", "bar": 20, "pairs": [[20, 4], [10, 1], [5, 1], [2.5, 1], [1.25, 1]]}
EXERCISES: list[tuple[str, str, str, dict[str, float]]] = [
    ("bench-press", "Barbell bench press", "bar", {"sternocostal": 1, "clavicular": 0.5, "triceps-lateral": 0.5}),
    ("squat", "Barbell back squat", "bar", {"vastus-lateralis": 1, "rectus-femoris": 0.5}),
    ("lateral-raise", "Dumbbell lateral raise", "dumbbells", {"deltoid-acromial": 1}),
    ("pull-up", "Pull-up", "body", {"latissimus": 1, "biceps-long": 0.5}),
    ("assisted-pull-up", "Assisted pull-up", "assisted", {"latissimus": 1, "biceps-long": 0.5}),
    ("one-arm-pushdown", "One-arm cable pushdown", "stack", {"triceps-lateral": 1, "triceps-long": 0.5}),
    ("curl", "Dumbbell curl", "dumbbells", {"biceps-long": 1, "biceps-short": 1}),
]
EQUIPMENT = {
    "bar": ("plates", BAR),
    "dumbbells": ("dumbbells", {"kind": "fixed", "min": 2, "max": 50, "step": 2}),
    "stack": ("stack", {"kind": "stack", "min": 5, "max": 80, "step": 5}),
    "body": ("body", {"kind": "body_weight_plus", "inner": {"kind": "fixed", "min": 2.5, "max": 60, "step": 2.5}}),
    "assisted": ("assisted", {"kind": "assisted", "inner": {"kind": "stack", "min": 5, "max": 80, "step": 5}}),
}
KINDS = {"body": "body_plus", "assisted": "assisted"}


def make_catalogue() -> dict[str, Exercise]:
    """Create anatomy, equipment and exercises; return the exercises by slug."""
    heads = {}
    for place, (group, muscle, names) in enumerate(ANATOMY):
        group_row = MuscleGroup.objects.create(slug=group, name=group.replace("-", " "), region="x", position=place)
        muscle_row, _ = Muscle.objects.get_or_create(
            slug=muscle, defaults={"name": muscle, "latin": muscle, "ta98": "A04", "lay_name": muscle}
        )
        for name in names:
            heads[name] = Head.objects.create(muscle=muscle_row, group=group_row, slug=name, name=name)
    equipment = {
        slug: Equipment.objects.create(slug=slug, name=slug, kind=kind, ladder=ladder)
        for slug, (kind, ladder) in EQUIPMENT.items()
    }
    exercises = {}
    for slug, name, item, credits in EXERCISES:
        exercises[slug] = Exercise.objects.create(
            slug=slug,
            name=name,
            equipment=equipment[item],
            load_kind=KINDS.get(item, "external"),
            laterality="single" if slug.startswith("one-") else "both",
            set_up="Set up.",
            grade_activation=3,
            grade_long_length=3,
            grade_loadability=3,
            grade_near_failure=3,
        )
        for head, credit in credits.items():
            HeadCredit.objects.create(exercise=exercises[slug], head=heads[head], credit=credit)
    return exercises


def monday(weeks_ago: int = 0, today: dt.date | None = None) -> dt.date:
    """Return the Monday of this week, or of an earlier one."""
    day = today or timezone.now().date()
    return day - dt.timedelta(days=day.weekday() + 7 * weeks_ago)


def make_assignment(client: Client, coach: User, starts_on: dt.date) -> Assignment:
    return Assignment.objects.create(
        client=client, program_version=1, name="Upper and lower", starts_on=starts_on, weekdays=[0, 3], created_by=coach
    )


def make_day(
    assignment: Assignment, date: dt.date, slots: list[tuple[Exercise, int]], week: int = 1, **fields: Any
) -> PlannedSession:
    """Plan one day; each slot is (exercise, sets) at 8-12 repetitions and 1-3 RIR."""
    session = PlannedSession.objects.create(
        assignment=assignment,
        client=assignment.client,
        date=date,
        day_name="Day",
        block_name="Block",
        block_number=1,
        week_number=week,
        day_number=1,
        **fields,
    )
    PlannedSlot.objects.bulk_create(
        PlannedSlot(
            session=session,
            position=place,
            exercise=exercise,
            sets=sets,
            reps_min=8,
            reps_max=12,
            rir_min=1,
            rir_max=3,
            rest_s=120,
        )
        for place, (exercise, sets) in enumerate(slots)
    )
    return session


def log_set(session: Session, exercise: Exercise, number: int, **values: Any) -> SetLog:
    """Log one set; the load is in kg unless said otherwise."""
    moment = session.started_at + dt.timedelta(minutes=3 * number)
    values = {"load": 60.0, "reps": 10, "rir": 2.0, **values}
    values.setdefault("load_kg", values["load"])
    return SetLog.objects.create(
        client=session.client,
        session=session,
        exercise=exercise,
        number=number,
        performed_at=moment,
        edited_at=moment,
        **values,
    )


def begin(client: Client, date: dt.date, planned: PlannedSession | None = None, **fields: Any) -> Session:
    started = fields.pop("started_at", dt.datetime.combine(date, dt.time(17), dt.UTC))
    values = {"session_rpe": 7.0, "minutes": 60, "finished_at": started + dt.timedelta(hours=1), **fields}
    return Session.objects.create(client=client, planned=planned, date=date, started_at=started, **values)


def do_day(planned: PlannedSession, loads: dict[str, float], reps: int = 10, rir: float | None = 2.0) -> Session:
    """Perform a planned day as prescribed, at `loads` by exercise slug."""
    session = begin(planned.client, planned.date, planned)
    moment = session.started_at
    rows = []
    for slot in planned.slots.select_related("exercise"):
        load = loads.get(slot.exercise.slug, 20.0)
        for number in range(1, slot.sets + 1):
            for side in ("left", "right") if slot.exercise.laterality == "single" else ("both",):
                moment += dt.timedelta(minutes=2)
                rows.append(
                    SetLog(
                        client=planned.client,
                        session=session,
                        slot=slot,
                        exercise=slot.exercise,
                        number=number,
                        side=side,
                        load=load,
                        load_kg=load,
                        reps=reps,
                        rir=rir,
                        performed_at=moment,
                        edited_at=moment,
                    )
                )
    SetLog.objects.bulk_create(rows)
    return session


def request(client: Client, since: dt.date, reason: str = "set.log") -> RecomputeRequest:
    return RecomputeRequest.objects.create(client=client, since=since, reason=reason)


def check_in(client: Client, date: dt.date, score: int, sore: tuple[str, ...] = ()) -> CheckIn:
    return CheckIn.objects.create(
        client=client,
        date=date,
        **dict.fromkeys(("fatigue", "sleep", "soreness", "stress", "mood"), score),
        sore_groups=list(sore),
        edited_at=timezone.now(),
    )


def weigh(client: Client, date: dt.date, kg: float) -> BodyMass:
    return BodyMass.objects.create(client=client, date=date, mass=kg, mass_kg=kg, edited_at=timezone.now())


def report_pain(session: Session, exercise: Exercise, score: int, site: str = "elbow") -> PainReport:
    return PainReport.objects.create(
        id=uuid.uuid4(),
        client=session.client,
        session=session,
        exercise=exercise,
        site=site,
        score=score,
        reported_at=session.started_at,
    )


DAYS = {
    0: [("bench-press", 4), ("lateral-raise", 3), ("one-arm-pushdown", 3)],
    2: [("squat", 4), ("pull-up", 3), ("curl", 3)],
    4: [("bench-press", 3), ("squat", 3), ("lateral-raise", 3)],
}


def train(
    client: Client,
    coach: User,
    exercises: dict[str, Exercise],
    *,
    weeks: int = 8,
    ahead: int = 2,
    seed: int = 1,
    today: dt.date | None = None,
    keep: float = 1.0,
    fade: int = 0,
) -> SimpleNamespace:
    """Plan and log `weeks` full weeks before this one, and plan `ahead` weeks from this one on.

    `keep` is the share of sessions done; in the last `fade` weeks strength falls and check-ins are poor.
    """
    chance = random.Random(seed)
    today = today or timezone.now().date()
    assignment = make_assignment(client, coach, monday(weeks, today))
    weigh(client, monday(weeks, today), 80.0)
    planned = []
    for week in range(weeks + ahead):
        start = monday(weeks - week, today)
        left = weeks - week
        falling = 0 < left <= fade
        for weekday, slots in DAYS.items():
            day = start + dt.timedelta(days=weekday)
            session = make_day(assignment, day, [(exercises[s], n) for s, n in slots], week + 1)
            planned.append(session)
            if week < weeks and chance.random() < keep:
                base = {"bench-press": 60.0, "squat": 90.0, "lateral-raise": 10.0, "one-arm-pushdown": 20.0}
                base |= {"pull-up": 5.0, "curl": 14.0}
                do_day(session, base, reps=7 if falling else min(12, 9 + week // 3), rir=0.0 if falling else 2.0)
        for weekday in range(6) if week < weeks else ():
            usual = 4 if chance.random() < 0.8 else 3
            check_in(client, start + dt.timedelta(days=weekday), 2 if falling else usual)
    return SimpleNamespace(assignment=assignment, planned=planned)
