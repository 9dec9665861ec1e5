"""A load far from those before is asked about once, by the same rule with and without a script."""

import json
import shutil
import subprocess
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.far_load import earlier_loads, far_from
from logbook.models import SetHistory, SetLog
from tests.logbook.test_page_session import fields_of, open_page, plan, send  # noqa: F401 - a fixture

HERE = Path(__file__).parent
CASES = json.loads((HERE / "far_cases.json").read_text(encoding="utf-8"))


def said(case):
    earlier = earlier_loads(case["entry"], case["leave_out"])
    return far_from(case["kg"], earlier, case["load_kind"], warm_up=case["warm_up"])


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_server_asks_about(case):
    assert said(case) == case["far"]


@pytest.mark.skipif(shutil.which("node") is None, reason="Node is not installed: the browser test covers the phone")
def test_phone_asks_about_the_same():
    told = subprocess.run(
        ["node", str(HERE / "far_cases.mjs")], input=json.dumps(CASES), capture_output=True, text=True, check=True
    )
    assert json.loads(told.stdout) == [case["far"] for case in CASES]


@given(st.floats(2, 300), st.floats(0.5, 2))
def test_what_a_plan_may_ask_for_is_never_asked_about(kg, times):
    assert far_from(kg * times, [kg], "external", warm_up=False) is None


@given(st.floats(1, 100))
def test_a_nought_too_many_is_always_asked_about(kg):
    assert far_from(10 * kg, [kg], "external", warm_up=False) == kg


@pytest.mark.django_db
def test_without_a_script_the_form_asks_beside_the_field_and_takes_a_yes(phone, plan):  # noqa: F811
    key = f"slot-{plan.curl_slot.pk}"
    send(phone, plan, fields_of(open_page(phone, plan), key) | {"load": "40", "reps": "9", "rir": "2"})
    values = fields_of(phone.get(f"/train/session/{plan.session}/").text, key) | {"load": "400", "rir": "2"}
    asked = send(phone, plan, values)
    assert asked.status_code == 422
    assert "Really? Before it was 40 kg" in asked.text
    assert "data-confirm hidden" not in asked.text.split(f'id="{key}"')[1].split("</section>")[0]
    assert SetLog.objects.count() == 1
    assert send(phone, plan, values | {"confirmed": "1"}).status_code == 302
    assert SetLog.objects.filter(load=400).exists()


@pytest.mark.django_db
def test_an_edit_is_asked_about_too_but_not_for_what_it_was(phone, plan):  # noqa: F811
    key = f"slot-{plan.curl_slot.pk}"
    send(phone, plan, fields_of(open_page(phone, plan), key) | {"load": "400", "reps": "9", "rir": "2"})
    row = SetLog.objects.get()
    values = {"load": "40", "unit": "kg", "reps": "9", "rir": "2", "side": "both"}
    assert phone.post(f"/train/set/{row.pk}/", values).status_code == 302, "the slip itself is nothing to compare with"
    send(phone, plan, fields_of(phone.get(f"/train/session/{plan.session}/").text, key) | {"rir": "2"})
    assert phone.post(f"/train/set/{row.pk}/", values | {"load": "4"}).status_code == 422
    assert phone.post(f"/train/set/{row.pk}/", values | {"load": "4", "confirmed": "1"}).status_code == 302
    assert list(SetHistory.objects.order_by("pk").values_list("values__load", flat=True)) == [400, 40]
