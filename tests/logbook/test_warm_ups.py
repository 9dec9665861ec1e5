"""The server says which warm-up sets come before the working load; tests/js asks the phone the same cases."""

import json
from pathlib import Path

import pytest

from logbook.warm_ups import warm_up_sets
from tests.logbook.factories import NOW, make_planned

CASES = json.loads((Path(__file__).parent / "warm_up_cases.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_server_says_which_warm_up_sets(case):
    found = warm_up_sets(case["entry"], case["settings"], case["kg"])
    assert [[one["load_kg"], one["reps"]] for one in found] == case["sets"]


def test_page_shows_them_before_the_first_working_set_only(phone, gym):
    slot = {"exercise": gym.curl, "target_load_kg": 60, "target_reps": 8, "target_reason": {"action": "hold"}}
    planned = make_planned(gym.client, NOW.date(), slot)
    page = phone.get(f"/train/planned/{planned.pk}/").content.decode().replace("\u00a0", " ")
    assert "22.5 kg × 8, 35 kg × 5, 47.5 kg × 3" in page
    session = gym.start(planned=planned.pk)
    gym.log(session, slot=planned.slots.get().pk, warm_up=True)
    page = phone.get(f"/train/session/{session}/").content.decode().replace("\u00a0", " ")
    assert ">35 kg × 5, 47.5 kg × 3" in page
    gym.log(session, slot=planned.slots.get().pk)
    page = phone.get(f"/train/session/{session}/").content.decode()
    assert "data-warm-ups hidden" in page
