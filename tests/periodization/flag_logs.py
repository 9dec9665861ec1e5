"""Invented logs for the flag rules: a quiet client, and strategies for any client."""

from datetime import date, timedelta

from hypothesis import strategies as st

from periodization.flags import (
    CheckInFact,
    ClientHistory,
    Exposure,
    PainFact,
    PlannedFact,
    SetFact,
    WeekVolume,
)
from periodization.strength import estimate_e1rm
from periodization.trend import observation_sd

TODAY = date(2026, 3, 30)


def made_set(name: str, load: float, reps: int, rir: float | None) -> SetFact:
    """Return a set with its estimate as the worker makes it."""
    found = estimate_e1rm(load, reps, rir) if load > 0 and reps else None
    sd = observation_sd(found.reps_to_failure, rir, found.formula) if found else None
    return SetFact(name, load, reps, rir, found.e1rm_kg if found else None, sd)


def exposure(days_ago: int, load: float, reps=(8, 8, 8), rir=2.0, exercise="squat", **values) -> Exposure:
    """Return an exposure `days_ago` with sets of `reps` at `rir` (one for all, or one each)."""
    rirs = rir if isinstance(rir, tuple) else (rir,) * len(reps)
    sets = tuple(
        made_set(f"{exercise}-{days_ago}-{n}", load, r, q) for n, (r, q) in enumerate(zip(reps, rirs, strict=True))
    )
    defaults = {"groups": ("quadriceps",), "reps_min": 6, "reps_max": 10, "rir_min": 1, "rir_max": 3}
    return Exposure(TODAY - timedelta(days_ago), f"s{days_ago}", exercise, sets=sets, **{**defaults, **values})


def check_in(days_ago: int, level: float = 4, sore=(), **items) -> CheckInFact:
    values = dict.fromkeys(("fatigue", "sleep", "soreness", "stress", "mood"), float(level)) | items
    return CheckInFact(TODAY - timedelta(days_ago), f"c{days_ago}", **values, sore_groups=tuple(sore))


def quiet(exercises=("squat", "press", "row")) -> ClientHistory:
    """Return ten weeks in which nothing happens."""
    return ClientHistory(
        tuple(exposure(d, 100.0, exercise=e) for d in range(1, 70, 3) for e in exercises),
        tuple(check_in(d, 4 if d % 3 else 3.8) for d in range(70)),
        (),
        tuple(PlannedFact(f"s{d}", TODAY - timedelta(d), True) for d in range(1, 70, 3)),
        (WeekVolume(TODAY, "quadriceps", 12.0, 10.0, 16.0),),
    )


days = st.integers(-40, 200).map(lambda n: TODAY - timedelta(n))
sets = st.builds(
    made_set,
    st.uuids().map(str),
    st.floats(0, 300).map(lambda x: round(x * 2) / 2),
    st.integers(0, 30),
    st.none() | st.integers(0, 10).map(float),
)
exposures = st.builds(
    Exposure,
    days,
    st.sampled_from(("s1", "s2", "s3")),
    st.sampled_from(("squat", "press")),
    st.just(("quadriceps",)),
    st.none() | st.integers(5, 8),
    st.none() | st.integers(8, 12),
    st.none() | st.integers(0, 2),
    st.none() | st.integers(2, 4),
    st.lists(sets, max_size=4).map(tuple),
    st.none() | st.integers(1, 4),
    st.booleans(),
)
item = st.integers(1, 5).map(float)
check_ins = st.builds(
    CheckInFact,
    days,
    st.uuids().map(str),
    item,
    item,
    item,
    item,
    item,
    st.sampled_from(((), ("quadriceps",), ("chest", "quadriceps"))),
)
pains = st.builds(
    PainFact,
    st.uuids().map(str),
    days,
    st.integers(0, 10).map(float),
    st.sampled_from(("elbow", "knee")),
    st.none() | st.sampled_from(("squat", "press")),
)
histories = st.builds(
    ClientHistory,
    st.lists(exposures, max_size=25).map(tuple),
    st.lists(check_ins, max_size=40).map(tuple),
    st.lists(pains, max_size=8).map(tuple),
    st.lists(st.builds(PlannedFact, st.uuids().map(str), days, st.booleans()), max_size=12).map(tuple),
    st.lists(
        st.builds(WeekVolume, days, st.just("chest"), st.floats(0, 60), st.just(8.0), st.just(16.0)), max_size=4
    ).map(tuple),
)
