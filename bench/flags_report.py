"""The figures with 95 % intervals: Wilson for shares, bootstrap over clients for rates and medians."""

from collections.abc import Callable, Sequence
from math import sqrt
from random import Random
from statistics import fmean, median

from bench.flags_run import ClientResult

Z95 = 1.959964
RESAMPLES = 1000
REPORT_WEEKS = 12


def wilson(hits: int, of: int) -> str:
    """Return a share with its Wilson 95 % interval in percent."""
    if not of:
        return "no case"
    p, n = hits / of, of
    middle = (p + Z95**2 / (2 * n)) / (1 + Z95**2 / n)
    half = Z95 * sqrt(p * (1 - p) / n + Z95**2 / (4 * n**2)) / (1 + Z95**2 / n)
    return f"{100 * p:5.1f} % [{100 * max(0.0, middle - half):.1f}, {100 * (middle + half):.1f}]  ({hits} of {of})"


def bootstrap(results: Sequence[ClientResult], figure: Callable[[Sequence[ClientResult]], float | None]) -> str:
    """Return a figure with its 95 % interval over resampled clients."""
    value = figure(results)
    if value is None:
        return "no case"
    rng = Random(0)
    drawn = sorted(v for _ in range(RESAMPLES) if (v := figure(rng.choices(results, k=len(results)))) is not None)
    low, high = drawn[int(0.025 * len(drawn))], drawn[int(0.975 * len(drawn)) - 1]
    return f"{value:6.2f} [{low:.2f}, {high:.2f}]"


def report(results: Sequence[ClientResult], weeks: int, curve: bool) -> str:
    """Return the whole report as text."""
    found = [e for r in results for e in r.episodes]
    caught = [e for e in found if e.prompt is not None]
    met = [e for e in found if e.prompt is None and e.plan_deload]
    per = weeks / REPORT_WEEKS

    def false_rate(some: Sequence[ClientResult]) -> float:
        return fmean(len(r.false_prompts) for r in some) / per

    def delay(some: Sequence[ClientResult]) -> float | None:
        days = [e.prompt for r in some for e in r.episodes if e.prompt is not None]
        return median(days) if days else None

    lines = [
        "",
        f"episodes of overreaching                     {len(found)}",
        f"found by signs within 7 days                 {wilson(len(caught), len(found))}",
        f"  of those that the plan's own deload did not meet first  {wilson(len(caught), len(found) - len(met))}",
        f"  found, or met by the plan's deload         {wilson(len(caught) + len(met), len(found))}",
        f"median delay in days from the onset          {bootstrap(results, delay)}",
        f"false prompts per client per 12 weeks        {bootstrap(results, false_rate)}",
    ]
    causes: dict[str, int] = {}
    for r in results:
        for cause in r.false_prompts:
            causes[cause] = causes.get(cause, 0) + 1
    lines.append("  after: " + ", ".join(f"{k} {v}" for k, v in sorted(causes.items(), key=lambda x: -x[1])))
    lines += [
        "",
        "per rule                                    stands within 7 days, and false flags per client per 12 weeks",
    ]
    for rule in sorted({rule for r in results for rule in r.false_flags}):
        hits = sum(rule in e.rules for e in found)

        def rate(some: Sequence[ClientResult], rule: str = rule) -> float:
            return fmean(r.false_flags.get(rule, 0) for r in some) / per

        lines.append(f"  {rule:42s} {wilson(hits, len(found)):44s} {bootstrap(results, rate)}")
    lines += ["", "progression (targets with a load, deloads left out)"]
    counts = {key: sum(r.targets[key] for r in results) for key in results[0].targets}
    total = sum(counts.values())

    for key, name in (
        ("fits", "load fits: the range at the prescribed effort, -1 to +2"),
        ("too heavy", "load too heavy by more than 1 repetition"),
        ("impossible", "the target's repetitions could not be done that day"),
        ("too light", "load too light by more than 2 repetitions"),
        ("no step", "no step of load inside 10 %: repetitions instead"),
    ):

        def share(some: Sequence[ClientResult], key: str = key) -> float | None:
            every = sum(sum(r.targets.values()) for r in some)
            return 100 * sum(r.targets[key] for r in some) / every if every else None

        lines.append(f"  {name:62s} {bootstrap(results, share)} %")
    lines.append(f"  targets: {total}")
    lines += ["", "by kind: clients, episodes found/all, false prompts per 12 weeks"]
    for kind in sorted({r.kind for r in results}):
        some = [r for r in results if r.kind == kind]
        all_found = [e for r in some for e in r.episodes]
        hits = sum(e.prompt is not None for e in all_found)
        lines.append(f"  {kind:20s} {len(some):4d}   {hits}/{len(all_found):<6d} {false_rate(some):.2f}")
    if curve:
        lines += ["", "trade-off: weight needed, found within 7 days, false prompts per client per 12 weeks"]
        for weight in sorted(results[0].curve):
            hits = sum(r.curve[weight][0] for r in results)
            rate12 = fmean(r.curve[weight][1] for r in results) / per
            lines.append(f"  {weight:4.1f}   {wilson(hits, len(found)):44s} {rate12:.2f}")
    return "\n".join(lines)
