"""The phone and the server agree on which set comes next and what 'as prescribed' means."""

import copy
import json
import shutil
import subprocess
from pathlib import Path

import pytest

from logbook.next_set import is_done, next_entry, next_step, suggestion

HERE = Path(__file__).parent
TABLE = json.loads((HERE / "next_cases.json").read_text(encoding="utf-8"))


def built(changes):
    """A full entry from the changes that a case names."""
    entry = copy.deepcopy(TABLE["base"])
    for name, value in changes.items():
        if name == "sets":
            entry["sets"] = [TABLE["set"] | (row if isinstance(row, dict) else {"number": row}) for row in value]
        elif name == "last":
            entry["last"] = {"sets": [TABLE["set"] | row for row in value["sets"]]}
        elif name == "exercise":
            entry["exercise"] |= value
        else:
            entry[name] = value
    return entry


CASES = [case | {"entry": built(case.get("entry", {})), "unit": case.get("unit", "kg")} for case in TABLE["cases"]]
ORDER = [case | {"entries": [built(entry) for entry in case["entries"]]} for case in TABLE["order"]]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_server_says_what_comes_next(case):
    step = next_step(case["entry"])
    assert [step["number"], step["side"]] == case["step"]
    assert is_done(case["entry"]) is case["done"]
    assert suggestion(case["entry"], case["unit"]) == case["ask"]


@pytest.mark.parametrize("case", ORDER, ids=lambda case: case["name"])
def test_server_says_which_exercise_comes_next(case):
    assert next_entry(case["entries"], case["current"]) == case["next"]


@pytest.mark.skipif(shutil.which("node") is None, reason="Node is not installed: the browser test covers the phone")
def test_phone_says_the_same():
    told = subprocess.run(
        ["node", str(HERE / "next_cases.mjs")],
        input=json.dumps({"cases": CASES, "order": ORDER}),
        capture_output=True,
        text=True,
        check=True,
    )
    said = json.loads(told.stdout)
    wanted = [{"step": case["step"], "done": case["done"], "ask": case["ask"]} for case in CASES]
    assert said["answers"] == wanted
    assert said["next"] == [case["next"] for case in ORDER]
