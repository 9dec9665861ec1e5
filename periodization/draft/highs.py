"""The one module that knows the solver (HiGHS through highspy)."""

from collections.abc import Callable
from dataclasses import dataclass
from math import inf
from typing import Any, Literal

import highspy

from periodization.draft.linear import LinearModel

Ended = Literal["within_gap", "enough", "infeasible", "clock", "cancelled"]


@dataclass(frozen=True, slots=True)
class Progress:
    """`seconds` so far; `best` points of the best week found (None: none yet); no week exceeds `bound` (None:
    unknown). `clashing`: no week exists, and the demands that clash are being looked for."""

    seconds: float
    best: float | None
    bound: float | None
    clashing: bool = False


@dataclass(frozen=True, slots=True)
class Solution:
    """`values` None: no answer was found. No answer is worth more than `bound`."""

    ended: Ended
    values: list[float] | None
    objective: float
    bound: float
    seconds: float


@dataclass(frozen=True, slots=True)
class Limits:
    """Stop within `gap` (relative) of the best, at an answer of `enough` points, or after `seconds`."""

    gap: float
    seconds: float
    seed: int = 0
    enough: float = inf


Tell = Callable[[Progress], None]
Cancelled = Callable[[], bool]


def solve(
    model: LinearModel,
    limits: Limits,
    start: list[float] | None = None,
    tell: Tell | None = None,
    cancelled: Cancelled | None = None,
) -> Solution:
    """Maximise the model, from the answer `start` if there is one."""
    solver = _solver(model, limits)
    if start is not None:
        answer = highspy.HighsSolution()
        answer.col_value = start
        solver.setSolution(answer)
    stopped = _listen(solver, limits.enough, tell, cancelled)
    solver.run()
    return _read(solver, stopped)


def relax(model: LinearModel, limits: Limits) -> Solution:
    """Solve with fractions allowed: the result bounds every whole answer."""
    solver = _solver(model, limits)
    solver.setOptionValue("solve_relaxation", True)
    solver.run()
    found = _read(solver, [])
    return Solution(found.ended, found.values, found.objective, found.objective, found.seconds)


def _solver(model: LinearModel, limits: Limits) -> Any:
    solver: Any = highspy.Highs()  # type: ignore[no-untyped-call]
    for option, value in {
        "output_flag": False,
        "threads": 1,  # more would make the result depend on how they interleave
        "random_seed": limits.seed,
        "mip_rel_gap": limits.gap,
        "mip_abs_gap": 1e-6,
        "time_limit": max(0.0, limits.seconds),
    }.items():
        solver.setOptionValue(option, value)
    solver.passModel(_as_highs(model))
    return solver


def _listen(solver: Any, enough: float, tell: Tell | None, cancelled: Cancelled | None) -> list[Ended]:
    """Watch the run; the list gets why it was stopped."""
    stopped: list[Ended] = []

    def look(event: Any) -> None:
        data = event.data_out
        best = data.mip_primal_bound if abs(data.mip_primal_bound) < highspy.kHighsInf else None
        bound = data.mip_dual_bound if abs(data.mip_dual_bound) < highspy.kHighsInf else None
        if not stopped and best is not None and best >= enough:
            stopped.append("enough")
        if not stopped and cancelled is not None and cancelled():
            stopped.append("cancelled")
        if stopped:
            event.interrupt()
        if tell is not None:
            tell(Progress(data.running_time, best, bound))

    solver.cbMipInterrupt.subscribe(look)
    return stopped


def _as_highs(model: LinearModel) -> Any:
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(model.gain), len(model.rows)
    lp.sense_ = highspy.ObjSense.kMaximize
    lp.col_cost_, lp.col_lower_, lp.col_upper_ = model.gain, model.low, model.high
    lp.row_lower_, lp.row_upper_ = model.row_low, model.row_high
    kinds = highspy.HighsVarType
    lp.integrality_ = [kinds.kInteger if whole else kinds.kContinuous for whole in model.whole]
    starts, index = [0], list[int]()
    value: list[float] = []
    for row in model.rows:
        index.extend(row)
        value.extend(row.values())
        starts.append(len(index))
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_, lp.a_matrix_.index_, lp.a_matrix_.value_ = starts, index, value
    return lp


def _read(solver: Any, stopped: list[Ended]) -> Solution:
    status, info = solver.getModelStatus(), solver.getInfo()
    statuses = highspy.HighsModelStatus
    ended: Ended = "clock"
    if status == statuses.kOptimal:
        ended = "within_gap"
    elif status in (statuses.kInfeasible, statuses.kUnboundedOrInfeasible):
        ended = "infeasible"  # no column of ours earns without end, so the model is never unbounded
    elif stopped:
        ended = stopped[0]
    elif status != statuses.kTimeLimit:
        raise RuntimeError(f"The solver ended with {solver.modelStatusToString(status)}.")
    found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    values = list(solver.getSolution().col_value) if found else None
    bound = info.mip_dual_bound if abs(info.mip_dual_bound) < highspy.kHighsInf else inf
    return Solution(ended, values, info.objective_function_value, bound, solver.getRunTime())
