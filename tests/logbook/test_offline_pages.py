"""What the phone keeps: the worker, the app's description, and the list of pages with their versions."""

import datetime as dt
import json
import re

import pytest
from django.contrib.staticfiles import finders
from django.utils import timezone

from logbook.phone_files import phone_files, release
from tests.logbook.conftest import signed_in
from tests.logbook.factories import make_planned, op, set_data

PAGES = "/train/phone/pages/"


@pytest.fixture
def plan(gym):
    """Three sessions: today, in a week, and in three weeks (too far to be kept)."""
    gym.today = timezone.now().date()
    gym.plan = [
        make_planned(gym.client, gym.today + dt.timedelta(days=days), {"exercise": gym.curl}) for days in (0, 7, 21)
    ]
    return gym


def listed(phone):
    answer = phone.get(PAGES)
    assert answer.status_code == 200
    *sessions, form = answer.json()["pages"]
    assert form["urls"] == ["/train/check-in/"]
    return sessions


def test_sessions_of_the_next_14_days_are_listed_for_their_owner_only(phone, plan):
    pages = listed(phone)
    assert [page["urls"][0] for page in pages] == [f"/train/planned/{one.pk}/" for one in plan.plan[:2]]
    assert listed(signed_in(plan.other_client.user)) == []
    assert signed_in(plan.coach).get(PAGES).status_code == 404


def test_version_changes_with_the_page_and_only_then(phone, plan):
    before = listed(phone)
    assert listed(phone) == before
    plan.plan[0].slots.update(target_load_kg=45)
    after = listed(phone)
    assert after[0]["version"] != before[0]["version"]
    assert after[1]["version"] == before[1]["version"]


def test_set_logged_on_another_device_changes_the_version_of_its_session(phone, plan):
    first = plan.plan[0]
    session = listed(phone)[0]["session"]
    plan.apply("session.start", timezone.now(), session=session, planned=first.pk)
    begun = listed(phone)[0]
    assert (begun["session"], begun["started"]) == (session, True)
    assert set(begun["urls"]) == {f"/train/planned/{first.pk}/", f"/train/session/{session}/"}
    plan.apply("set.record", timezone.now(), **set_data(session, plan.curl))
    assert listed(phone)[0]["version"] != begun["version"]


def test_every_listed_page_opens_and_names_its_person(phone, plan):
    for page in listed(phone):
        answer = phone.get(page["urls"][0])
        assert answer.status_code == 200
        assert f'name="person" content="{plan.client.user.pk}"' in answer.content.decode()


def test_kept_check_in_does_not_hold_todays_answers(phone, gym):
    answers = dict.fromkeys(("fatigue", "sleep", "soreness", "stress", "mood"), 4)
    gym.apply("checkin.record", timezone.now(), **answers)
    assert "You have checked in today" in phone.get("/train/check-in/").content.decode()
    kept = phone.get("/train/check-in/", headers={"X-Keep": "1"}).content.decode()
    assert "You have checked in today" not in kept
    assert not re.search(r'name="mood" value="4" checked', kept)


def test_list_costs_the_same_for_one_session_and_for_many(phone, plan, django_assert_num_queries):
    # Sign-in, user, membership, client, screening; planned sessions, slots, last time, body mass; begun sessions.
    with django_assert_num_queries(12):
        listed(phone)
    for days in range(1, 6):
        make_planned(plan.client, plan.today + dt.timedelta(days=days), {"exercise": plan.curl}, {"exercise": plan.row})
    with django_assert_num_queries(12):
        assert len(listed(phone)) == 7


def test_worker_is_served_from_the_root_and_keeps_files_that_exist(client):
    answer = client.get("/sw.js")
    assert answer["Content-Type"].startswith("text/javascript")
    assert "no-cache" in answer["Cache-Control"]
    body = answer.content.decode()
    assert release() in body
    files = re.findall(r'^    "(/[^"]+)",?$', body, re.M)
    assert len(files) == len(phone_files()) + 1
    for url in files:
        found = finders.find(url.removeprefix("/static/")) if url.startswith("/static/") else client.get(url).content
        assert found, url


def test_every_module_that_a_kept_module_imports_is_kept_too():
    kept = set(phone_files())
    for url in kept:
        if not url.endswith(".js"):
            continue
        text = open(finders.find(url.removeprefix("/static/")), encoding="utf-8").read()  # noqa: SIM115
        folder = url.rsplit("/", 1)[0]
        for target in re.findall(r'from "([./][^"]+)"', text):
            parts = folder.split("/")
            for part in target.split("/"):
                if part == "..":
                    parts.pop()
                elif part != ".":
                    parts.append(part)
            assert "/".join(parts) in kept, f"{url} imports {target}"


def test_description_of_the_app_names_icons_that_exist(client):
    body = client.get("/manifest.webmanifest")
    assert body["Content-Type"] == "application/manifest+json"
    described = json.loads(body.content)
    assert described["start_url"] == "/train/"
    assert {icon.get("purpose", "any") for icon in described["icons"]} == {"any", "maskable"}
    for icon in described["icons"]:
        path = finders.find(icon["src"].removeprefix("/static/"))
        assert path, icon
        if icon["type"] == "image/png":
            size = int.from_bytes(open(path, "rb").read(24)[16:20], "big")  # noqa: SIM115
            assert icon["sizes"] == f"{size}x{size}"


def test_offline_start_page_says_nothing_of_anyone_without_a_cookie(client, gym):
    body = client.get("/train/phone/").content.decode()
    assert 'name="person" content=""' in body
    assert f'content="{gym.client.user.pk}"' in signed_in(gym.client.user).get("/train/phone/").content.decode()


def test_entries_of_somebody_else_are_not_sent_in_the_name_of_who_is_signed_in(phone, gym):
    body = {"operations": [op("bodymass.record", timezone.now(), mass=80, unit="kg")]}

    def post(person):
        return phone.post("/api/v1/operations/", body, content_type="application/json", headers={"X-Person": person})

    refused = post(str(gym.other_client.user.pk))
    assert (refused.status_code, refused.json()["code"]) == (403, "another_person")
    assert not gym.client.body_masses.exists()
    assert post(str(gym.client.user.pk)).status_code == 200


def test_pages_are_compressed_for_the_wire(phone, plan):
    answer = phone.get(f"/train/planned/{plan.plan[0].pk}/", headers={"Accept-Encoding": "gzip"})
    assert answer["Content-Encoding"] == "gzip"
    assert len(answer.content) < 12_000
