"""Refuse a request that makes no sense, before anything is computed."""

from collections.abc import Iterable

from periodization.dose import DEFAULT_RIR_LIMIT
from periodization.draft.prescription import DEFAULT_PRESCRIPTIONS, Prescription, Prescriptions
from periodization.draft.request import Request
from periodization.draft.weights import check_weights

MOST_SETS = 20


def prescriptions_of(request: Request) -> Prescriptions:
    return request.prescriptions or DEFAULT_PRESCRIPTIONS[request.status]


def check_request(request: Request) -> None:
    """Raise ValueError, in words, for the first thing that cannot be meant."""
    check_weights(request.weights)
    _check_week(request)
    _check_names(request)
    for one in request.candidates:
        if any(not 0 < credit <= 1 for credit in one.credits.values()):
            raise ValueError(f"Credits of {one.id} must lie over 0 and up to 1.")
        if any(not 1 <= getattr(one.grades, name) <= 5 for name in one.grades.__slots__):
            raise ValueError(f"Grades of {one.id} run from 1 to 5.")
        if min(one.setup_seconds, one.rest_seconds, one.rep_seconds) < 0:
            raise ValueError(f"Seconds of {one.id} cannot be negative.")
    prescriptions = prescriptions_of(request)
    for prescription in filter(None, (prescriptions.compound, prescriptions.single, prescriptions.light)):
        _check_prescription(prescription)
    for target in request.targets:
        aim = target.floor if target.aim is None else target.aim
        if not 0 <= target.floor <= aim <= target.ceiling:
            raise ValueError(f"The range for {target.group} must rise from 0 or more, with the aim inside.")
    if not (0 <= request.stop.gap < 1 and request.stop.seconds > 0):
        raise ValueError("The gap lies between 0 and 1, and the clock needs more than 0 seconds.")


def _check_week(request: Request) -> None:
    if not 1 <= len(request.days) <= 7:
        raise ValueError(f"A week has 1 to 7 training days, not {len(request.days)}.")
    if any(not 0 <= day.weekday <= 6 or day.minutes <= 0 for day in request.days):
        raise ValueError("A training day needs a weekday from 0 to 6 and more than 0 minutes.")
    _unique((day.weekday for day in request.days), "weekday")
    low, high = request.sets
    if not 1 <= low <= high <= MOST_SETS:
        raise ValueError(f"Sets of an exercise run from 1 to {MOST_SETS}, not {low} to {high}.")
    if request.session_cap <= 0 or not 1 <= request.slots_per_day <= 30 or request.warm_up_minutes < 0:
        raise ValueError("The cap of sets and the exercises of a day must be over 0 (30 at most), warm-up 0 or more.")


def _check_names(request: Request) -> None:
    """Every name that is used must be known: a misspelt exercise to avoid must not be silently without effect."""
    _unique((one.id for one in request.candidates), "exercise")
    _unique((day.id for day in request.days), "day")
    _unique((target.group for target in request.targets), "target")
    _unique(((count.group, count.day) for count in request.counts), "count")
    exercises = {one.id for one in request.candidates}
    targeted = {target.group for target in request.targets}
    _known(request.include | request.avoid, exercises, "exercise")
    _known((h for one in request.candidates for h in one.credits), {head.id for head in request.heads}, "head")
    _known((t.group for t in request.targets), {head.group for head in request.heads}, "group")
    _known((c.group for c in request.counts), targeted, "group with a target")
    _known((c.day for c in request.counts), {day.id for day in request.days}, "day")
    if any(not 0 <= count.low <= count.high for count in request.counts):
        raise ValueError("A count of exercises must rise from 0 or more.")


def _check_prescription(prescription: Prescription) -> None:
    (few, many), (near, far) = prescription.reps, prescription.rir
    if not 1 <= few <= many:
        raise ValueError(f"Repetitions must rise from 1 or more: {few} to {many}.")
    # One more is given to exercises that end badly near failure, and the set must still be a hard one.
    if not 0 <= near <= far <= DEFAULT_RIR_LIMIT - 1:
        raise ValueError(f"Repetitions in reserve must rise from 0 to {DEFAULT_RIR_LIMIT - 1:g} at most.")


def _unique(names: Iterable[object], what: str) -> None:
    seen: set[object] = set()
    for name in names:
        if name in seen:
            raise ValueError(f"The {what} {name} stands twice.")
        seen.add(name)


def _known(names: Iterable[object], known: Iterable[object], what: str) -> None:
    if unknown := sorted(str(name) for name in set(names) - set(known)):
        raise ValueError(f"Unknown {what}: {unknown[0]}.")
