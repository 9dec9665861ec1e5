"""Done against prescribed: sessions, sets, effort, volume."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import fsum

from periodization.rules import Rule

RULE = Rule("compliance.week", 1, "definitions chosen")


@dataclass(frozen=True, slots=True)
class PlannedSlot:
    """A slot of a planned session: `sets` working sets at `rir_low` to `rir_high` (None: effort is free)."""

    session_id: str
    slot_id: str
    sets: int
    rir_low: float | None = None
    rir_high: float | None = None


@dataclass(frozen=True, slots=True)
class DoneSet:
    """A performed set and the slot it was prescribed by; None: an extra that no plan asked for."""

    session_id: str | None
    slot_id: str | None
    rir: float | None
    warm_up: bool = False


@dataclass(frozen=True, slots=True)
class Compliance:
    """Counts, and shares 0..1 that are None when there is nothing to divide by.

    `sets_done` are prescribed sets that were done; more than prescribed goes to `extra_sets` and cannot hide a gap
    elsewhere. `effort_share` is among sets with a known and a prescribed RIR; `mean_rir_gap` is their mean distance to
    the prescribed range, negative when closer to failure. `volume_share` counts no muscle group beyond its plan.
    """

    sessions_planned: int
    sessions_done: int
    sets_planned: int
    sets_done: int
    extra_sets: int
    effort_share: float | None
    mean_rir_gap: float | None
    effort_unknown: int
    volume_share: float | None

    @property
    def sessions_share(self) -> float | None:
        """Sessions done / planned."""
        return self.sessions_done / self.sessions_planned if self.sessions_planned else None

    @property
    def sets_share(self) -> float | None:
        """Prescribed sets done / planned."""
        return self.sets_done / self.sets_planned if self.sets_planned else None


def compliance(
    planned: Iterable[PlannedSlot],
    done: Iterable[DoneSet],
    planned_volume: Mapping[str, float] | None = None,
    done_volume: Mapping[str, float] | None = None,
    rir_tolerance: float = 0.0,
) -> Compliance:
    """Compare what was done with what was prescribed.

    A session counts as done with one working set of it. `planned_volume` and `done_volume` are hard sets per muscle
    group from `dose.weekly_volume`. Warm-up sets never count.
    """
    slots = {(s.session_id, s.slot_id): s for s in planned}
    counts: dict[tuple[str | None, str | None], int] = defaultdict(int)
    gaps: list[float] = []
    unknown = 0
    for one in done:
        if one.warm_up:
            continue
        counts[one.session_id, one.slot_id] += 1
        slot = slots.get((one.session_id, one.slot_id))  # type: ignore[arg-type]
        if one.rir is None:
            unknown += 1
        elif slot is not None and slot.rir_low is not None and slot.rir_high is not None:
            gaps.append(_distance(one.rir, slot.rir_low, slot.rir_high))
    met = {key: min(counts.get(key, 0), slot.sets) for key, slot in slots.items()}
    sessions = {session for session, _ in slots}
    inside = sum(abs(gap) <= rir_tolerance for gap in gaps)
    return Compliance(
        sessions_planned=len(sessions),
        sessions_done=len(sessions & {session for session, _ in counts}),
        sets_planned=sum(s.sets for s in slots.values()),
        sets_done=sum(met.values()),
        extra_sets=sum(counts.values()) - sum(met.values()),
        effort_share=inside / len(gaps) if gaps else None,
        mean_rir_gap=fsum(gaps) / len(gaps) if gaps else None,
        effort_unknown=unknown,
        volume_share=_volume_share(planned_volume or {}, done_volume or {}),
    )


def _distance(value: float, low: float, high: float) -> float:
    return value - low if value < low else value - high if value > high else 0.0


def _volume_share(planned: Mapping[str, float], done: Mapping[str, float]) -> float | None:
    total = fsum(planned.values())
    if total <= 0:
        return None
    return fsum(min(sets, done.get(group, 0.0)) for group, sets in planned.items()) / total
