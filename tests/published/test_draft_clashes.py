"""Clashes of requests for the whole library, by the second solver: no week with all members, one without any."""

from dataclasses import replace

import pytest

from bench.draft import request_for
from periodization.draft import Clash, Limit, draft_week
from tests.published.draft_by_cp_sat import week_by_cp_sat

FREE_MINUTES, FREE_SETS, FREE_SLOTS, FREE_CAP = 10_000, 20, 30, 1_000
CASES = {
    "limits": {"limits": (Limit("action", "hip-extension"), Limit("action", "knee-flexion"))},
    "equipment": {"equipment": frozenset({"body-weight"})},
    "time": {},
}


def request_of(case):
    days, minutes = (2, 30) if case == "time" else (3, 60)
    request = request_for(days, minutes, ("chest", "lats"), 20)
    targets = tuple(replace(target, floor_must=True) for target in request.targets)
    return replace(request, targets=targets, **CASES[case])


def only(request, demands):
    """Return the request with these demands alone."""
    kept = {(demand.kind, demand.subject) for demand in demands}
    pieces = {one.equipment for one in request.candidates}
    return replace(
        request,
        targets=tuple(
            replace(t, floor_must=("floor", t.group) in kept, ceiling_must=("ceiling", t.group) in kept)
            for t in request.targets
        ),
        days=tuple(d if ("minutes", d.id) in kept else replace(d, minutes=FREE_MINUTES) for d in request.days),
        limits=tuple(limit for limit in request.limits if (limit.kind, limit.name) in kept),
        equipment=frozenset(pieces - {subject for kind, subject in kept if kind == "equipment"}),
        sets=request.sets if ("sets_most", "") in kept else (request.sets[0], FREE_SETS),
        slots_per_day=request.slots_per_day if ("slots", "") in kept else FREE_SLOTS,
        session_cap=request.session_cap if ("session_cap", "") in kept else FREE_CAP,
    )


@pytest.mark.parametrize("case", CASES)
def test_clash_is_infeasible_and_every_member_is_needed(case):
    request = request_of(case)
    clash = draft_week(request)
    assert isinstance(clash, Clash)
    assert clash.proven
    assert week_by_cp_sat(only(request, clash.demands), 30) is False
    for one in clash.demands:
        rest = [demand for demand in clash.demands if demand != one]
        assert week_by_cp_sat(only(request, rest), 30) is True, one
