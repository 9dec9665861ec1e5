"""How many questions a coach of fifty finds on a Monday, in simulated clients whose truth is known.

    python bench/questions.py 1000-1059 --weeks 16

One client a seed, as in bench/flags.py. Every Sunday the questions are asked as the worker asks them, and the coach
refuses each, so that nothing changes the truth; an answered question rests as docs/methods/questions.md says. Nobody's
plan has a range here: `more sets` is counted as if every plan lay under some floor in every week, which is the most
that it can be. Each line is one share of sets from which the floor of repetitions is a flag.
"""

import argparse
import sys
from collections import Counter
from dataclasses import replace
from datetime import date, timedelta
from functools import partial
from multiprocessing import Pool
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from bench.flags import START, seeds_of
from demo.cohort import SimulatedHistory, client_history, draw_kind, draw_profile, simulate_client, standard_plan
from demo.cohort.truth import END_EXCESS
from periodization.deload import propose_deload
from periodization.flags import DEFAULT, Flag, evaluate
from periodization.questions import GroupPlan, ask_contact, ask_hold, ask_progress, ask_swap, rest_weeks

WEEK = timedelta(weeks=1)
COACH_OF = 50
REST_OF_DELOAD = 2
SHARES = (0.5, DEFAULT.floor_share)
ALWAYS_UNDER = (GroupPlan("any", 1.0, 2.0),)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("seeds", nargs="+", help="seeds or ranges of seeds, such as 1000-1059")
    parser.add_argument("--weeks", type=int, default=16)
    parser.add_argument("--jobs", type=int, default=2)
    args = parser.parse_args()
    seeds = seeds_of(args.seeds)
    with Pool(args.jobs) as pool:
        asked = pool.map(partial(run_client, weeks=args.weeks), seeds)
    mondays = len(seeds) * args.weeks
    print(f"{len(seeds)} clients, {args.weeks} weeks; questions a Monday for {COACH_OF} clients")
    for share in SHARES:
        total = sum((one[share] for one in asked), Counter())
        each = {kind: COACH_OF * total[kind] / mondays for kind in ("deload", "swap", "contact", "hold", "progress")}
        right = total["hold, tired"] / max(1, total["hold"])
        counts = ", ".join(f"{kind} {count:.1f}" for kind, count in each.items())
        print(f"floor from {share:.0%} of sets: {counts}; all {sum(each.values()):.1f}; holds of the tired {right:.0%}")
    return 0


def run_client(seed: int, weeks: int) -> dict[float, Counter[str]]:
    """Return how often each kind was asked of one seed, by share of sets; `hold, tired` are those in real fatigue."""
    kind = draw_kind(seed)
    plan = standard_plan(START, weeks, overreach=kind == "planned_overreach")
    history = simulate_client(draw_profile(kind, seed, weeks * 7), plan, seed)
    return {share: _asked(history, weeks, share) for share in SHARES}


def _asked(history: SimulatedHistory, weeks: int, share: float) -> Counter[str]:
    log, found = client_history(history), Counter[str]()
    settings = replace(DEFAULT, floor_share=share)
    truth = {day.day: day for day in history.days}
    rests: dict[tuple[str, str], date] = {}
    for sunday in (START + n * WEEK - timedelta(1) for n in range(1, weeks + 1)):
        flags = evaluate(log, sunday, settings)
        for kind, subject in _questions(history, sunday, flags):
            if sunday < rests.get((kind, subject), sunday):
                continue
            rest = REST_OF_DELOAD if kind == "deload" else rest_weeks(kind, refused=True)
            rests[kind, subject] = sunday + (rest + 1) * WEEK
            found[kind] += 1
            found["hold, tired"] += kind == "hold" and truth[sunday].excess >= END_EXCESS
    return found


def _questions(history: SimulatedHistory, sunday: date, flags: tuple[Flag, ...]) -> list[tuple[str, str]]:
    monday = sunday - timedelta(6)
    found = [("swap", question.subjects[0]) for question in ask_swap(flags, monday)]
    last = max((s.planned.day for s in history.sessions if s.planned.day <= sunday), default=None)
    if ask_contact(flags, (sunday - last).days if last else None, plan_ahead=True):
        found.append(("contact", ""))
    rested = max((d.day for d in history.days if d.deload and d.day <= sunday), default=history.days[0].day)
    if propose_deload(flags, (sunday - rested).days / 7):
        return [*found, ("deload", "")]
    shown = [flag for flag in flags if not flag.quiet]
    if ask_hold(shown):
        found.append(("hold", ""))
    kept = [_kept(history, monday - n * WEEK) for n in (0, 1)]
    if ask_progress(shown, ALWAYS_UNDER, kept[0], kept[1], 0.0):
        found.append(("progress", ""))
    return found


def _kept(history: SimulatedHistory, monday: date) -> tuple[int, int]:
    """Return the sessions due in the week of `monday`, and how many were done."""
    done = sum(monday <= s.planned.day < monday + WEEK for s in history.sessions)
    return done + sum(monday <= m.day < monday + WEEK for m in history.missed), done


if __name__ == "__main__":
    sys.exit(main())
