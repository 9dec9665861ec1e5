#!/usr/bin/env python3
"""How fast a week is drafted from the whole library, and how far from the best it can be.

    python -m bench.draft                     2, 3, 4 and 5 days; nine requests each
    python -m bench.draft --days 4 --seconds 60
    python -m bench.draft --second            also asks the tests' second solver about each request's bound

Times are given twice: by the wall clock, and in seconds of processor time, which other work on the machine does not
lengthen. The solver's own clock is the wall's.
"""

import argparse
import statistics
import time
from dataclasses import dataclass, field
from itertools import product
from math import inf

from bench.library import read_candidates, read_groups, read_heads
from periodization.draft import Progress, Request, Stop, Target, TrainingDay
from periodization.draft.build import build
from periodization.draft.facts import gather
from periodization.draft.score import score
from periodization.draft.search import search
from periodization.targets import standard_priority, target_range

WEEKDAYS = {2: (0, 3), 3: (0, 2, 4), 4: (0, 1, 3, 4), 5: (0, 1, 2, 3, 4)}
MINUTES = (45, 60, 90)
FOCUS = (("chest", "lats"), ("biceps", "triceps"), ("quadriceps", "glutes"))
AT, GOAL = 2.0, 0.005


def request_for(days: int, minutes: float, focus: tuple[str, ...], seconds: float) -> Request:
    """Return a request for the whole library and every group, floors as wishes: nothing may be left undecided."""
    targets = []
    for group in read_groups():
        priority = "focus" if group in focus else standard_priority(group)
        bounds = target_range("intermediate", priority, group)
        targets.append(Target(group, bounds.floor, bounds.ceiling, priority, floor_must=False))
    week = tuple(TrainingDay(f"day {n + 1}", weekday, minutes) for n, weekday in enumerate(WEEKDAYS[days]))
    return Request(read_heads(), read_candidates(), week, tuple(targets), stop=Stop(GOAL, seconds))


@dataclass
class Trace:
    """The gap over time: (wall seconds, processor seconds, gap)."""

    wall: float = field(default_factory=time.perf_counter)
    cpu: float = field(default_factory=time.process_time)
    points: list[tuple[float, float, float]] = field(default_factory=list)

    def add(self, best: float | None, bound: float | None) -> None:
        gap = (bound - best) / best if best and bound and best > 0 else inf
        if not self.points or gap < self.points[-1][2]:
            self.points.append((time.perf_counter() - self.wall, time.process_time() - self.cpu, gap))

    def told(self, progress: Progress) -> None:
        if progress.best is not None:
            self.add(progress.best, progress.bound)

    def when(self, gap: float, clock: int) -> float:
        return next((point[clock] for point in self.points if point[2] <= gap), inf)

    def gap_at(self, seconds: float, clock: int) -> float:
        return min((point[2] for point in self.points if point[clock] <= seconds), default=inf)


def measure(request: Request) -> tuple[Trace, float, float]:
    """Return the trace, and the points and bound that it ended with."""
    trace = Trace()
    facts = gather(request)
    model = build(facts)
    found = search(model, request.stop, tell=trace.told)
    if found.values is None:
        return trace, 0.0, found.bound
    points = score(facts, model.read(found.values))
    trace.add(points, found.bound)
    return trace, points, found.bound


def main() -> None:
    """Measure and print a line a request, and a summary a number of days."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--days", type=int, choices=WEEKDAYS, action="append")
    parser.add_argument("--seconds", type=float, default=20.0, help="the solver's clock for each request")
    parser.add_argument("--second", action="store_true", help="compare the bounds with the second solver's")
    options = parser.parse_args()
    print(f"{len(read_candidates())} exercises, {len(read_groups())} groups; until {GOAL:.1%} or {options.seconds:g} s")
    print("wall s | processor s:    first answer      to 0.5 %       gap at 2 s        end")
    good, all_runs = [0, 0], 0
    for days in options.days or WEEKDAYS:
        traces = []
        for minutes, focus in product(MINUTES, FOCUS):
            request = request_for(days, minutes, focus, options.seconds)
            trace, points, bound = measure(request)
            traces.append(trace)
            name = f"{days} d x {minutes} min, {focus[0]}"
            print(f"{name:22}", *(row(trace)), f"{(bound - points) / points:6.2%}", flush=True)
            if options.second:
                compare(request, points, bound)
        for clock in (0, 1):
            good[clock] += sum(trace.gap_at(AT, clock) <= 0.01 for trace in traces)
        all_runs += len(traces)
        firsts = [statistics.median(trace.when(inf, clock) for trace in traces) for clock in (0, 1)]
        goals = [statistics.median(trace.when(GOAL, clock) for trace in traces) for clock in (0, 1)]
        print(
            f"{days} days, median: first {firsts[0]:.2f} | {firsts[1]:.2f}, to 0.5 % {goals[0]:.2f} | {goals[1]:.2f}\n"
        )
    print(f"gap at most 1 % at 2 s: wall {good[0]} of {all_runs}, processor {good[1]} of {all_runs}")


def row(trace: Trace) -> list[str]:
    cells = [f"{trace.when(gap, 0):7.2f} | {trace.when(gap, 1):5.2f}" for gap in (inf, GOAL)]
    return [*cells, f"{trace.gap_at(AT, 0):7.2%} | {trace.gap_at(AT, 1):6.2%}"]


def compare(request: Request, points: float, bound: float) -> None:
    from tests.published.draft_by_cp_sat import draft_by_cp_sat

    other = draft_by_cp_sat(request, GOAL, request.stop.seconds)
    if other.points is None:
        print(f"    second solver: no week; bound {other.bound:.2f}, ours {bound:.2f}")
        return
    agree = points <= other.bound + 1e-3 and other.points <= bound + 1e-3
    print(
        f"    second solver: {other.points:.2f} to {other.bound:.2f}, ours {points:.2f} to {bound:.2f}:",
        "agree" if agree else "DISAGREE",
    )


if __name__ == "__main__":
    main()
