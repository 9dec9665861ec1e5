"""How good the next targets are, judged by the true strength of simulated clients.

    python bench/targets.py 1-20 --weeks 12          shares and errors, by plan and by code
    python bench/targets.py 3 --plan home --table    every target and question of one client, to be read

Odd seeds train in the gym of demo/cohort, even ones at home, unless a plan is named. Deloads are left out. A load is
too heavy or too light as bench/flags_run.py says. Its error is the distance, in percent of what is moved, from the load
with which the day's true strength would end the target's repetitions in the middle of the prescribed effort.
"""

import argparse
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from functools import partial
from multiprocessing import Pool
from pathlib import Path
from statistics import median

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from bench.flags import START, seeds_of
from bench.flags_run import fit_of
from bench.targets_plans import PLANS
from demo.cohort import CohortSlot, LoggedSlot, SimulatedHistory, draw_kind, draw_profile, simulate_client
from demo.cohort.facts import exposures_of
from periodization.loads import effective_load
from periodization.progression import outgrown
from periodization.questions import ask_variant
from periodization.rules import Reason
from periodization.sentences import sentence


@dataclass(frozen=True)
class Judged:
    """One target and what came of it."""

    plan: str
    seed: int
    day: date
    slot: CohortSlot
    done: LoggedSlot

    @property
    def fit(self) -> str:
        return fit_of(self.slot, self.done)

    @property
    def error(self) -> float | None:
        """Percent that the load is over (under: negative) what fits; None where no load is named or can be said."""
        target, truth = self.done.target, self.done.true_one_rm_kg
        moved = None if target.load_kg is None else effective_load(self.slot.ladder, target.load_kg, self.slot.body_kg)
        if not moved or moved >= truth:
            return None
        to_failure = self.done.true_rir_at_target + target.reps
        a_rep = to_failure / (truth / moved - 1)  # Epley's 30, times the person's own endurance
        wanted = target.reps + (self.slot.rir_min + self.slot.rir_max) / 2
        return 100 * (moved / (truth / (1 + wanted / a_rep)) - 1)


def run_client(seed: int, plan: str | None, weeks: int) -> tuple[list[Judged], list[tuple[date, Reason]]]:
    """Return the targets of one seed, and the variants that would be asked for."""
    kind, named = draw_kind(seed), plan or ("gym" if seed % 2 else "home")
    history = simulate_client(draw_profile(kind, seed, weeks * 7), PLANS[named](START, weeks), seed)
    judged = [
        Judged(named, seed, session.planned.day, session.planned.slots[done.slot], done)
        for session in history.sessions
        if not session.planned.deload
        for done in session.slots
    ]
    return judged, list(_variants(history, weeks))


def _variants(history: SimulatedHistory, weeks: int) -> Iterator[tuple[date, Reason]]:
    """Yield what would be asked on each Sunday, each exercise once."""
    slots = {slot.exercise: slot for session in history.sessions for slot in session.planned.slots}
    asked: set[str] = set()
    for monday in (START + timedelta(7 * n) for n in range(weeks)):
        known = [e for s in history.sessions if s.planned.day < monday + timedelta(7) for e in exposures_of(s)]
        found = {
            name: one
            for name, slot in slots.items()
            if name not in asked
            and (one := outgrown([e for e in known if e.exercise_id == name], slot.ladder, since=monday))
        }
        asked |= found.keys()
        for question in ask_variant([], found):
            yield monday + timedelta(6), question.reasons[0]


def report(rows: list[Judged]) -> Iterator[str]:
    """Yield a line for each plan and for each code of a plan."""
    yield f"{'':34}{'n':>6}{'fits':>7}{'heavy':>7}{'undone':>7}{'light':>7}{'no step':>8}{'error %':>9}{'holds':>7}"
    for plan in sorted({one.plan for one in rows}):
        own = [one for one in rows if one.plan == plan and one.done.target.action != "first"]
        yield _line(plan, own)
        for code, _ in Counter(one.done.target.code for one in own).most_common():
            yield _line(f"  {code}", [one for one in own if one.done.target.code == code])


def _line(name: str, rows: list[Judged]) -> str:
    fits = Counter(one.fit for one in rows)
    errors = [error for one in rows if (error := one.error) is not None]
    shares = [100 * fits[word] / len(rows) for word in ("fits", "too heavy", "impossible", "too light", "no step")]
    holds = 100 * sum(one.done.target.action == "hold" for one in rows) / len(rows)
    widths = (7, 7, 7, 7, 8)
    said = "".join(f"{share:{width}.1f}" for share, width in zip(shares, widths, strict=True))
    return f"{name:34}{len(rows):6}{said}{median(errors) if errors else float('nan'):9.1f}{holds:7.1f}"


def table(rows: list[Judged], asked: list[tuple[date, Reason]]) -> Iterator[str]:
    """Yield every target beside what was done, exercise by exercise, and the questions at the end."""
    for name in dict.fromkeys(one.slot.exercise for one in rows):
        yield f"\n{name}"
        for one in (row for row in rows if row.slot.exercise == name):
            target, sets = one.done.target, one.done.sets
            load = "-" if target.load_kg is None else f"{target.load_kg:g}"
            done = " ".join(f"{s.load_kg:g}x{s.reps}@{'?' if s.rir is None else f'{s.rir:g}'}" for s in sets)
            error = "" if one.error is None else f"{one.error:+.0f} %"
            yield f"  {one.day} {load:>6} x {target.reps:<3}{target.code:28}{one.fit:11}{error:>7}  {done}"
    for day, reason in asked:
        yield f"\n{day} {sentence(reason)}"


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("seeds", nargs="+", help="seeds or ranges of seeds, such as 1-20")
    parser.add_argument("--weeks", type=int, default=12)
    parser.add_argument("--plan", choices=sorted(PLANS))
    parser.add_argument("--table", action="store_true", help="print every target and question instead")
    parser.add_argument("--jobs", type=int, default=2)
    args = parser.parse_args()
    seeds = seeds_of(args.seeds)
    with Pool(args.jobs) as pool:
        found = pool.map(partial(run_client, plan=args.plan, weeks=args.weeks), seeds)
    if args.table:
        for seed, (rows, asked) in zip(seeds, found, strict=True):
            print(f"\n=== seed {seed}, {draw_kind(seed)}, {rows[0].plan}" + "\n".join(["", *table(rows, asked)]))
        return 0
    print("\n".join(report([one for rows, _ in found for one in rows])))
    counted = Counter(reason.code for _, asked in found for _, reason in asked)
    print(f"\nvariants asked for, {len(seeds)} clients, {args.weeks} weeks: {dict(counted) or 'none'}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
