"""One client: simulate, evaluate the rules on every day with something new in the log, keep what the report needs."""

from dataclasses import dataclass, replace
from datetime import date, timedelta

from demo.cohort import (
    CohortSlot,
    LoggedSlot,
    SimulatedHistory,
    client_history,
    draw_kind,
    draw_profile,
    episodes,
    simulate_client,
    standard_plan,
)
from demo.cohort.truth import END_EXCESS
from periodization.deload import DEFAULT, propose_deload
from periodization.flags import RULES, evaluate

DAYS_TO_FIND = 7
# A load fits when the day's true strength allows repetitions of the prescribed range at the prescribed effort, give or
# take: a report is one repetition off near failure (Hackett 2017), and people leave one more than they think (Halperin
# 2022), so a client who feels 2 in reserve has 3.
HARDER_BY, EASIER_BY = 1.0, 2.0

# Here the equipment has no step inside 10 %: the load stays too light by rule, and says so.
NO_STEP = ("step_too_large", "limit_step")


@dataclass(frozen=True)
class EpisodeResult:
    """First day of each kind of sign, in days from the onset (negative: while fatigue was still building)."""

    prompt: int | None
    rules: dict[str, int]
    plan_deload: bool


@dataclass(frozen=True)
class ClientResult:
    """What one client adds to the figures. `prompts` holds (cause, weight) per false prompt."""

    seed: int
    kind: str
    episodes: tuple[EpisodeResult, ...]
    false_prompts: tuple[str, ...]
    false_flags: dict[str, int]
    targets: dict[str, int]
    curve: dict[float, tuple[int, int]]


# After a rule's id: counted also where it is too weak to be shown by itself.
SIGN = "(sign)"
CURVE = (1.4, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.5, 4.0)


def run_client(seed: int, start: date, weeks: int, onset: float) -> ClientResult:
    """Return the figures of one seed."""
    kind = draw_kind(seed)
    profile = draw_profile(kind, seed, weeks * 7)
    plan = standard_plan(start, weeks, overreach=kind == "planned_overreach")
    history = simulate_client(profile, plan, seed)
    warranted, windows = _truth(history, onset)
    first = history.days[0].day
    stands, prompts = _signs(history)
    found = []
    for build, begin, end, planned in windows:
        inside = range(build, min(end, begin + DAYS_TO_FIND) + 1)
        rules = {rule: days[0] - begin for rule, all_days in stands.items() if (days := _within(all_days, inside))}
        days = _within(prompts[DEFAULT.weight_needed], inside)
        found.append(EpisodeResult(days[0] - begin if days else None, rules, planned))
    false = _events(prompts[DEFAULT.weight_needed], warranted)
    curve = {
        weight: (
            sum(bool(_within(days, range(b, min(e, o + DAYS_TO_FIND) + 1))) for b, o, e, _ in windows),
            len(_events(days, warranted)),
        )
        for weight, days in prompts.items()
    }
    return ClientResult(
        seed,
        kind,
        tuple(found),
        tuple(_cause(history, first, day, windows) for day in false),
        {rule: len(_events(days, warranted)) for rule, days in stands.items()},
        _targets(history),
        curve,
    )


def _truth(history: SimulatedHistory, onset: float) -> tuple[set[int], list[tuple[int, int, int, bool]]]:
    """Return the days on which a prompt is right, and (build-up, onset, end, deload within a week) per episode."""
    days = history.days
    warranted: set[int] = set()
    windows = []
    for episode in episodes(days, onset):
        begin, end = (episode.onset - days[0].day).days, (episode.end - days[0].day).days
        build = begin
        while build > 0 and days[build - 1].excess >= END_EXCESS:
            build -= 1
        warranted |= set(range(build, end + 1))
        windows.append((build, begin, end, any(d.deload for d in days[begin : begin + DAYS_TO_FIND + 1])))
    return warranted, windows


def _signs(history: SimulatedHistory) -> tuple[dict[str, list[int]], dict[float, list[int]]]:
    """Return the days on which each rule's flag stands, and on which signs prompt a deload, per weight needed."""
    log = client_history(history)
    news = {s.planned.day for s in history.sessions} | {c.day for c in history.check_ins}
    stands: dict[str, list[int]] = {rule.rule.id: [] for rule in RULES}
    prompts: dict[float, list[int]] = {weight: [] for weight in sorted({*CURVE, DEFAULT.weight_needed})}
    last_deload: date | None = None
    for number, day in enumerate(history.days):
        if day.deload:
            last_deload = day.day
            continue
        if day.day not in news:
            continue
        flags = evaluate(log, day.day)
        for rule in {f.rule_id for f in flags if not f.quiet}:
            stands[rule].append(number)
        for rule in {f.rule_id for f in flags if f.weight > 0}:
            stands.setdefault(f"{rule} {SIGN}", []).append(number)
        began = last_deload or history.days[0].day - timedelta(1)
        weeks = (day.day - began - timedelta(1)).days / 7
        signs = [f for f in flags if f.family != "pain"]
        for weight, days in prompts.items():
            # The pain rule and the calendar prompt too, but they are no guess about overreaching.
            found = propose_deload(signs, weeks, settings=replace(DEFAULT, weight_needed=weight))
            if found is not None and found.kind == "signs":
                days.append(number)
    return stands, prompts


def _within(days: list[int], inside: range) -> list[int]:
    return [d for d in days if d in inside]


def _events(days: list[int], warranted: set[int]) -> list[int]:
    """Return the days that begin a false event; one that stands on counts again after a week."""
    events: list[int] = []
    for day in days:
        if day not in warranted and (not events or day - events[-1] >= DAYS_TO_FIND):
            events.append(day)
    return events


def _cause(history: SimulatedHistory, first: date, day: int, windows: list[tuple[int, int, int, bool]]) -> str:
    if any(end < day <= end + 14 for _, _, end, _ in windows):
        return "after an episode"
    if any(d.ill for d in history.days[max(0, day - 10) : day + 1]):
        return "illness"
    return "raised fatigue" if history.days[day].excess >= END_EXCESS else "noise"


def _targets(history: SimulatedHistory) -> dict[str, int]:
    """Count targets with a load, deloads left out, by whether the day's true strength fits their load."""
    counts = {"fits": 0, "too heavy": 0, "impossible": 0, "too light": 0, "no step": 0}
    for session in history.sessions:
        for done in session.slots:
            if not session.planned.deload and done.target.load_kg is not None:
                counts[fit_of(session.planned.slots[done.slot], done)] += 1
    return counts


def fit_of(slot: CohortSlot, done: LoggedSlot) -> str:
    """Say in a word whether the target's load fits the day's true strength."""
    if done.true_rir_at_target < 0:
        return "impossible"
    if done.target.code in NO_STEP:
        return "no step"
    to_failure = done.true_rir_at_target + done.target.reps
    if to_failure - slot.rir_min < slot.reps_min - HARDER_BY:
        return "too heavy"
    return "too light" if to_failure - slot.rir_max > max(slot.reps_max, done.target.reps) + EASIER_BY else "fits"
