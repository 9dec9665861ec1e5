"""A draft's codes in words: demands, what would help, and what a slot is for."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.dates import WEEKDAYS
from django.utils.translation import gettext as _

from programs.models import DraftRun, Equipment, Exercise, Head, JointAction, Limit, MuscleGroup
from programs.sentences import in_words
from programs.services.draft_request import day_id
from programs.services.limits import NOT_JUDGED

# Which names a demand's subject stands for.
SUBJECTS = {
    **dict.fromkeys(("floor", "ceiling", "count_low", "count_high", "heads", "long"), "group"),
    **dict.fromkeys(("include", "avoid"), "exercise"),
    "minutes": "day",
    "action": "action",
    "tag": "limit",
    "equipment": "equipment",
}


@dataclass(frozen=True, slots=True)
class Names:
    """Names by kind (`group`, `head`, `action`, `limit`, `exercise`, `equipment`, `day`), then by what codes hold."""

    by_kind: Mapping[str, Mapping[str, str]]

    def of(self, kind: str, key: Any) -> str:
        return self.by_kind.get(kind, {}).get(str(key), str(key))


def names_for(run: DraftRun, exercises: Iterable[Any] = ()) -> Names:
    """Read the names that the run's codes speak of (six queries)."""
    pieces = {one["subject"] for one in _demands(run.result) if one["kind"] == "equipment"}
    wanted = {int(pk) for pk in exercises} | {
        int(one["subject"]) for one in _demands(run.result) if SUBJECTS.get(one["kind"]) == "exercise"
    }
    days = {day_id(number): str(WEEKDAYS[day["weekday"]]) for number, day in enumerate(run.ask["days"])}
    actions = JointAction.objects.values_list("slug", "joint", "name")
    heads = Head.objects.select_related("muscle")
    return Names(
        {
            "group": dict(MuscleGroup.objects.values_list("slug", "name")),
            "head": {head.slug: str(head) for head in heads},
            "action": {slug: f"{joint} {name}" for slug, joint, name in actions},
            "limit": {**dict(Limit.objects.values_list("slug", "name")), NOT_JUDGED: _("not judged yet")},
            "exercise": _by_id(Exercise.objects.filter(pk__in=wanted).values_list("pk", "name")),
            "equipment": _by_id(Equipment.objects.filter(pk__in=map(int, pieces)).values_list("pk", "name")),
            "day": days,
        }
    )


def demand_words(demand: Mapping[str, Any], names: Names) -> str:
    return in_words(f"draft_demand_{_kind(demand)}", _params(demand, names))


def relaxation_words(relaxation: Mapping[str, Any], names: Names) -> str:
    demand = relaxation["demand"]
    return in_words(f"draft_relax_{_kind(demand)}", {**_params(demand, names), "enough": relaxation["enough"]})


@dataclass(frozen=True, slots=True)
class NeedLine:
    """What a slot is for, in words, and the points that the week would lose without it."""

    text: str
    points: float


def need_lines(needs: Iterable[Mapping[str, Any]], names: Names) -> list[NeedLine]:
    """Say what a slot is for, the dearest first; heads together, and so with what is loaded long."""
    together: dict[str, list[str]] = {}
    points: dict[str, float] = {}
    lines = []
    for need in needs:
        kind = need["code"].removeprefix("draft_need_")
        if kind in ("heads", "long", "variety"):
            together.setdefault(kind, []).append(_subject(kind, need["params"], names))
            points[kind] = points.get(kind, 0.0) + need["points"]
        elif kind == need["code"]:
            demand = {**need["params"], "kind": need["code"].removeprefix("draft_demand_")}
            lines.append(NeedLine(_("Asked for: %(demand)s") % {"demand": demand_words(demand, names)}, need["points"]))
        else:
            params = {**need["params"], "subject": names.of("group", need["params"]["subject"])}
            lines.append(NeedLine(in_words(need["code"], params), need["points"]))
    for kind, subjects in together.items():
        lines.append(NeedLine(in_words(f"draft_need_{kind}", {"subject": "; ".join(subjects)}), points[kind]))
    return sorted(lines, key=lambda line: -line.points)


def _subject(kind: str, params: Mapping[str, Any], names: Names) -> str:
    if kind == "heads":
        return names.of("head", params["subject"])
    group = names.of("group", params["subject"])
    if kind == "variety":
        return _("%(group)s by %(action)s") % {"group": group, "action": names.of("action", params["action"])}
    return group


def _kind(demand: Mapping[str, Any]) -> str:
    return "unjudged" if demand["kind"] == "tag" and demand["subject"] == NOT_JUDGED else demand["kind"]


def _params(demand: Mapping[str, Any], names: Names) -> dict[str, Any]:
    kind = SUBJECTS.get(demand["kind"], "")
    return {
        "subject": names.of(kind, demand["subject"]),
        "day": names.of("day", demand["day"]),
        "amount": demand.get("amount"),
    }


def _demands(result: Mapping[str, Any]) -> Iterable[Mapping[str, Any]]:
    yield from result.get("demands", ())
    for day in result.get("days", ()):
        for slot in day["slots"]:
            for need in slot["needs"]:
                if need["code"].startswith("draft_demand_"):
                    yield {**need["params"], "kind": need["code"].removeprefix("draft_demand_")}


def _by_id(rows: Iterable[tuple[int, str]]) -> dict[str, str]:
    return {str(pk): name for pk, name in rows}
