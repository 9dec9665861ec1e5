"""How well the flags find overreaching in simulated clients whose truth is known.

    python bench/flags.py 1000-1199 --weeks 24

One client a seed, by the mix of demo/cohort/draw.py, on the four-day standard plan; the coach answers no prompt, so
the truth does not depend on the rules. docs/methods/flags.md defines every figure printed here.
"""

import argparse
import sys
from concurrent.futures import ProcessPoolExecutor
from dataclasses import asdict
from datetime import date
from functools import partial
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from bench.flags_report import report
from bench.flags_run import ClientResult, run_client
from demo.cohort import MIX
from periodization.deload import DEFAULT as DELOAD

START = date(2026, 1, 5)


def seeds_of(texts: list[str]) -> list[int]:
    """Return the seeds named by numbers and ranges: 7, 1000-1199."""
    seeds: list[int] = []
    for text in texts:
        first, _, last = text.partition("-")
        seeds += range(int(first), int(last or first) + 1)
    return seeds


def run_all(seeds: list[int], weeks: int, onset: float, jobs: int) -> list[ClientResult]:
    """Run every seed; the order of the results is that of the seeds whatever the number of processes."""
    job = partial(run_client, start=START, weeks=weeks, onset=onset)
    if jobs == 1:
        return [job(seed) for seed in seeds]
    with ProcessPoolExecutor(jobs) as pool:
        return list(pool.map(job, seeds, chunksize=4))


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("seeds", nargs="+", help="seeds or ranges of seeds, such as 1000-1199")
    parser.add_argument("--weeks", type=int, default=24)
    parser.add_argument("--onset", type=float, default=0.05, help="excess fatigue that begins an episode (0.05 = 5 %%)")
    parser.add_argument("--curve", action="store_true", help="print the trade-off over the weight needed")
    parser.add_argument("--jobs", type=int, default=2)
    args = parser.parse_args()
    seeds = seeds_of(args.seeds)
    results = run_all(seeds, args.weeks, args.onset, args.jobs)
    print(f"{len(seeds)} clients, {args.weeks} weeks, seeds {' '.join(args.seeds)}; onset at {args.onset:.1%} excess")
    print("mix:", ", ".join(f"{kind} {share:.0%}" for kind, share in MIX.items()))
    print("deload settings:", ", ".join(f"{k} {v}" for k, v in asdict(DELOAD).items()))
    print(report(results, args.weeks, args.curve))
    return 0


if __name__ == "__main__":
    sys.exit(main())
