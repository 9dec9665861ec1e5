"""Who needs the coach first: a sum of points whose every part has its reason.

The sizes are chosen: a stop before everything else that one client can gather; then a question weighs more than a
sign, and a sign more than bookkeeping, but they add up.
"""

from collections.abc import Sequence
from typing import Any

from periodization.flags import Flag
from periodization.rules import Rule

RULE = Rule("board.urgency", 4, "points chosen")
# Twenty act flags and every question at once stay under one stop: pain that asks for a halt is never second.
FLAG_POINTS = {"stop": 600, "act": 20, "watch": 6}
PROMPT_POINTS = {"deload": 30, "swap": 30, "contact": 15, "hold": 12, "variant": 10, "progress": 8}
# A question of its own code for each kind: the desk says them in words of their own.
PROMPT_CODES = {kind: "prompt_open" if kind == "deload" else f"prompt_open_{kind}" for kind in PROMPT_POINTS}
NO_PLAN_POINTS = 12
NO_SESSION_POINTS = 10
EFFORT_POINTS = 4
GROUP_POINTS = 1
MOST_GROUP_POINTS = 5
# Mean distance from the prescribed RIR from which effort is worth a word. Reports err by about one (Hackett 2017).
EFFORT_GAP = 1.5


def urgency(
    flags: Sequence[Flag],
    prompt_kinds: Sequence[str],
    volume: dict[str, Any],
    compliance: dict[str, Any],
    plan_ahead: bool,
    trained_lately: bool,
) -> tuple[int, list[dict[str, Any]]]:
    """Return the sum and its parts, most urgent first: {"points", "code", "params", "state", "subject"...}."""
    parts = [_flag_part(flag) for flag in flags]
    for kind in prompt_kinds:
        state = "act" if PROMPT_POINTS[kind] >= FLAG_POINTS["act"] else "watch"
        parts.append(_part(PROMPT_POINTS[kind], PROMPT_CODES[kind], {"kind": kind}, state))
    if not plan_ahead:
        parts.append(_part(NO_PLAN_POINTS, "no_plan_ahead", {}, "watch"))
    elif not trained_lately:
        parts.append(_part(NO_SESSION_POINTS, "no_session_lately", {}, "watch"))
    gap = compliance["mean_rir_gap"]
    if gap is not None and abs(gap) >= EFFORT_GAP:
        code = "effort_harder" if gap < 0 else "effort_easier"
        parts.append(_part(EFFORT_POINTS, code, {"gap": round(abs(gap), 1)}, "watch"))
    under, over = outside(volume)
    for code, groups in (("groups_under", under), ("groups_over", over)):
        if groups:
            points = min(MOST_GROUP_POINTS, GROUP_POINTS * len(groups))
            parts.append(_part(points, code, {"count": len(groups)}, "watch"))
    parts.sort(key=lambda part: (-part["points"], part["code"], part.get("subject", "")))
    return sum(part["points"] for part in parts), parts


def outside(volume: dict[str, Any]) -> tuple[list[str], list[str]]:
    """Return the groups under and over their range: as done, or, while the week runs, as it will be if kept to.

    In a week of reduced training nothing is under, and only what the plan trains directly can be.
    """
    under, over = [], []
    for slug, row in volume["groups"].items():
        if row["floor"] is None:
            continue
        sets = row["done"] + row["ahead"]
        if sets < row["floor"] and row["aimed"] and not volume["deload"]:
            under.append(slug)
        elif sets > row["ceiling"]:
            over.append(slug)
    return under, over


def _flag_part(flag: Flag) -> dict[str, Any]:
    part = _part(FLAG_POINTS[flag.severity], flag.code, dict(flag.params), flag.severity)
    return part | {"rule": flag.rule_id, "subject_kind": flag.subject_kind, "subject": flag.subject}


def _part(points: int, code: str, params: dict[str, Any], state: str) -> dict[str, Any]:
    return {"points": points, "code": code, "params": params, "state": state}
