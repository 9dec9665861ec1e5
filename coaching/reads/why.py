"""The arithmetic behind a number, read back from what its row kept."""

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from accounts.models import Client
from coaching.models import WeekSummary
from logbook.models import CheckIn, PainReport, SetLog
from programs.models import Exercise, Head, PlannedSession


@dataclass(frozen=True)
class VolumePart:
    """Sets of one exercise in one session: `sets` x `credit` = `total`. `left_out` were warm-ups or too easy."""

    exercise: str
    session_id: str
    sets: float
    left_out: float
    credit: float
    total: float


@dataclass(frozen=True)
class VolumeWhy:
    done: list[VolumePart]
    planned: list[VolumePart]
    heads: list[tuple[str, dict[str, float]]]
    rir_limit: float
    rules: list[tuple[str, int]]


def volume_why(summary: WeekSummary, group: str) -> VolumeWhy:
    """Return the sets behind a group's week, from the ids and credits that the row kept."""
    inputs = summary.inputs
    credit = {
        key: max((share for share, _, of in heads.values() if of == group), default=0.0)
        for key, heads in inputs["credits"].items()
    }
    names = {str(pk): name for pk, name in Exercise.objects.filter(pk__in=credit).values_list("pk", "name")}
    counted: dict[tuple[str, str], float] = defaultdict(float)
    left_out: dict[tuple[str, str], float] = defaultdict(float)
    for _, exercise, rir, warm_up, side, session in inputs["sets"]:
        key = (session, str(exercise))
        counts = not warm_up and (rir is None or rir <= inputs["rir_limit"])
        share = 1.0 if side == "both" else 0.5
        counted[key] += share if counts else 0.0
        left_out[key] += 0.0 if counts else share
    planned: dict[tuple[str, str], float] = defaultdict(float)
    for _, exercise, sets, rir_max, session in inputs["slots"]:
        planned[str(session), str(exercise)] += sets if rir_max <= inputs["rir_limit"] else 0
    slugs = {head for heads in inputs["credits"].values() for head, (_, _, of) in heads.items() if of == group}
    heads = [(head.name, summary.volume["heads"].get(head.slug, {})) for head in Head.objects.filter(slug__in=slugs)]
    return VolumeWhy(
        _parts(counted, left_out, credit, names),
        _parts(planned, {}, credit, names),
        heads,
        inputs["rir_limit"],
        [(rule, version) for rule, version in inputs["rules"]],
    )


def _parts(
    sets: dict[tuple[str, str], float],
    left_out: dict[tuple[str, str], float],
    credit: dict[str, float],
    names: dict[str, str],
) -> list[VolumePart]:
    return [
        VolumePart(
            names.get(exercise, "–"),
            session,
            amount,
            left_out.get((session, exercise), 0),
            credit[exercise],
            amount * credit[exercise],
        )
        for (session, exercise), amount in sets.items()
        if credit[exercise] > 0
    ]


@dataclass(frozen=True)
class Evidence:
    """The log entries a flag or a target rests on."""

    sets: list[SetLog]
    check_ins: list[CheckIn]
    pains: list[PainReport]
    planned: list[PlannedSession]

    @property
    def days(self) -> list[dt.date]:
        return sorted({row.session.date for row in self.sets})


def evidence_of(client: Client, ids: Iterable[str]) -> Evidence:
    """Return the client's rows with these ids; what was deleted since is missing."""
    uuids, numbers = [], []
    for one in ids:
        try:
            uuids.append(UUID(str(one)))
        except ValueError:
            if str(one).isdigit():
                numbers.append(int(one))
    sets = SetLog.objects.filter(client=client, pk__in=uuids).select_related("session", "exercise__equipment")
    return Evidence(
        list(sets.order_by("performed_at", "number", "side")),
        list(CheckIn.objects.filter(client=client, pk__in=uuids).order_by("date")),
        list(PainReport.objects.filter(client=client, pk__in=uuids).select_related("exercise").order_by("reported_at")),
        list(PlannedSession.objects.filter(client=client, pk__in=numbers).order_by("date")),
    )


def estimate_steps(inputs: dict[str, Any]) -> dict[str, Any]:
    """Return the steps from a set to its e1RM: what moved, repetitions to failure, and the factor between them."""
    mass = inputs["body_mass"]
    moved = mass["kg"] * mass["share"] if mass else None
    return {
        "mass_kg": moved,
        "share_of": mass if mass and mass["share"] != 1 else None,
        "plus": moved is not None and inputs["effective_kg"] >= moved,
        "to_failure": inputs["reps_to_failure"],
        "reasons": [{"code": code, "params": {}} for code in inputs["reasons"]],
    }
