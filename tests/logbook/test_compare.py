"""The phone and the server say in the same words what changed since last time, and how the two sides differ."""

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from logbook.compare import since_last_time
from logbook.sides import side_difference

HERE = Path(__file__).parent
TABLE = json.loads((HERE / "compare_cases.json").read_text(encoding="utf-8"))
PLAIN = {"load_kind": "external", "rep_unit": "reps", "equipment": {"kind": "plates"}}


def row(number, load, reps, side="both"):
    return {"number": number, "side": side, "load": load, "unit": "kg", "load_kg": load, "reps": reps, "rir": 1}


def rows(sets):
    return [row(number, load, reps) for number, (load, reps) in enumerate(sets, 1)]


SINCE = [
    {**case, "now": rows(case["now"]), "before": rows(case["before"]), "exercise": PLAIN | {"load_kind": case["kind"]}}
    for case in TABLE["since_last"]
]
SIDES = [
    {**case, "sets": [row(n, load, reps, side) for side, n, load, reps in case["sets"]],
     "exercise": PLAIN | case["exercise"]}
    for case in TABLE["sides"]
]  # fmt: skip


@pytest.mark.parametrize("case", SINCE, ids=lambda case: case["words"])
def test_change_since_last_time_in_words(case):
    assert since_last_time(case["now"], case["before"], case["exercise"], case["unit"]) == case["words"]


@pytest.mark.parametrize("case", SIDES, ids=lambda case: case["name"])
def test_difference_between_sides_in_words(case):
    assert side_difference(case["sets"], case["exercise"], case["unit"]) == case["words"]


@pytest.mark.skipif(shutil.which("node") is None, reason="Node is not installed: the browser test covers the phone")
def test_phone_says_the_same():
    told = subprocess.run(
        ["node", str(HERE / "compare_cases.mjs")],
        input=json.dumps({"since_last": SINCE, "sides": SIDES}),
        capture_output=True,
        text=True,
        check=True,
    )
    said = json.loads(told.stdout)
    assert said["since_last"] == [case["words"] for case in SINCE]
    assert said["sides"] == [case["words"] for case in SIDES]
