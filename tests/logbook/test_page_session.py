"""The session page without a script: plain forms write the same operations."""

import datetime as dt
import re
import uuid

import pytest
from django.utils import timezone

from logbook.models import BodyMass, PainReport, Session, SetLog, SlotSkip
from logbook.services.sessions import session_id_for
from tests.logbook.conftest import signed_in
from tests.logbook.factories import make_exercise, make_planned


@pytest.fixture
def plan(gym):
    """Today's session: curl in three sets (alone), then row, one side at a time."""
    gym.today = timezone.now().date()
    gym.planned = make_planned(gym.client, gym.today, {"exercise": gym.curl}, {"exercise": gym.row, "sets": 1})
    gym.session = session_id_for(gym.planned.pk)
    gym.curl_slot, gym.row_slot = gym.planned.slots.all()
    return gym


def fields_of(html: str, key: str) -> dict[str, str]:
    """What a browser would send for a panel's set form if its button were pressed now."""
    panel = html.split(f'id="{key}"')[1].split("</section>")[0]
    form = panel.split("data-set-form")[1].split("</form>")[0]
    sent: dict[str, str] = {}
    for tag in re.findall(r"<input[^>]*>", form):
        attributes = dict(re.findall(r'(\w[\w-]*)="([^"]*)"', tag))
        if attributes.get("type") in ("radio", "checkbox") and not re.search(r"\bchecked\b", tag):
            continue
        sent[attributes["name"]] = attributes.get("value", "")
    return sent


def open_page(phone, plan):
    return phone.get(f"/train/planned/{plan.planned.pk}/").content.decode()


def send(phone, plan, values):
    return phone.post(f"/train/session/{plan.session}/set/", values)


def test_page_of_a_planned_session_saves_nothing_by_being_opened(phone, plan):
    assert "Set 1 of 3" in open_page(phone, plan)
    assert not Session.objects.exists()


def test_first_set_begins_the_session_and_is_logged_as_typed(phone, plan):
    values = fields_of(open_page(phone, plan), f"slot-{plan.curl_slot.pk}") | {"load": "42,5", "reps": "9", "rir": "2"}
    response = send(phone, plan, values)
    assert response.url == f"/train/session/{plan.session}/"
    session, row = Session.objects.get(), SetLog.objects.get()
    assert (session.pk, session.planned, session.date) == (plan.session, plan.planned, plan.today)
    assert (row.load, row.reps, row.rir, row.number, row.slot, row.side) == (42.5, 9, 2, 1, plan.curl_slot, "both")


def test_double_tap_on_the_button_logs_one_set(phone, plan):
    values = fields_of(open_page(phone, plan), f"slot-{plan.curl_slot.pk}") | {"load": "40", "rir": "1"}
    send(phone, plan, values)
    assert send(phone, plan, values).status_code == 302
    assert (SetLog.objects.count(), Session.objects.count()) == (1, 1)


def test_next_set_is_filled_in_from_the_one_before(phone, plan):
    page = open_page(phone, plan)
    send(phone, plan, fields_of(page, f"slot-{plan.curl_slot.pk}") | {"load": "40"})
    values = fields_of(phone.get(f"/train/session/{plan.session}/").content.decode(), f"slot-{plan.curl_slot.pk}")
    assert (values["number"], values["load"], values["reps"], values["rir"]) == ("2", "40", "8", "1")


def test_target_and_its_reason_are_shown_and_filled_in(phone, plan):
    reason = {"action": "reps_up", "code": "add_reps", "params": {"reps": 9}}
    plan.planned.slots.filter(pk=plan.curl_slot.pk).update(target_load_kg=45, target_reps=9, target_reason=reason)
    page = open_page(phone, plan)
    values = fields_of(page, f"slot-{plan.curl_slot.pk}")
    assert (values["load"], values["reps"], values["rir"]) == ("45", "9", "1")
    assert "aim for 9 repetitions" in page


def test_target_that_says_stop_fills_nothing_in(phone, plan):
    reason = {"action": "stop", "code": "stop_pain", "params": {}}
    plan.planned.slots.filter(pk=plan.curl_slot.pk).update(target_load_kg=None, target_reps=8, target_reason=reason)
    values = fields_of(open_page(phone, plan), f"slot-{plan.curl_slot.pk}")
    assert (values["load"], values["reps"], "rir" in values) == ("", "", False)


def test_last_time_is_shown(phone, plan):
    week_ago = timezone.now() - dt.timedelta(days=7)
    plan.log(plan.start(week_ago), at=week_ago, load=37.5, reps=11, rir=2)
    page = open_page(phone, plan)
    assert "37.5\xa0kg × 11, RIR 2" in page
    assert fields_of(page, f"slot-{plan.curl_slot.pk}")["load"] == "37.5"


def test_sides_of_a_one_sided_exercise_come_in_turn(phone, plan):
    key = f"slot-{plan.row_slot.pk}"
    send(phone, plan, fields_of(open_page(phone, plan), key) | {"load": "20"})
    second = fields_of(phone.get(f"/train/session/{plan.session}/?at={key}").content.decode(), key)
    assert (second["side"], second["number"], second["load"]) == ("right", "1", "20")
    send(phone, plan, second)
    assert sorted(SetLog.objects.values_list("side", flat=True)) == ["left", "right"]
    assert (
        "All sets of this exercise are done." in phone.get(f"/train/session/{plan.session}/?at={key}").content.decode()
    )


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        ({"load": "a lot"}, "This must be a number."),
        ({"load": ""}, "This field is required."),
        ({"load": "-5"}, "greater than or equal to 0"),
        ({"load": "1001"}, "Over 1000 kg"),
        ({"load": "nan"}, "finite"),
        ({"reps": "8.5"}, "whole number"),
        ({"reps": "101"}, "At most 100"),
        ({"rir": "more", "rir_more": "11"}, "less than or equal to 10"),
    ],
)
def test_refused_values_stay_in_the_form_with_the_reason_beside_them(phone, plan, typed, message):
    key = f"slot-{plan.curl_slot.pk}"
    response = send(phone, plan, fields_of(open_page(phone, plan), key) | {"load": "40"} | typed)
    page = response.content.decode()
    assert response.status_code == 422
    assert message in page
    kept = fields_of(page, key)
    assert {name: kept[name] for name in typed} == typed
    assert not SetLog.objects.exists()


def test_very_high_load_is_asked_for_once_more(phone, plan):
    key = f"slot-{plan.curl_slot.pk}"
    first = send(phone, plan, fields_of(open_page(phone, plan), key) | {"load": "650"})
    assert "say once more" in first.content.decode()
    send(phone, plan, fields_of(first.content.decode(), key) | {"confirmed": "1"})
    assert SetLog.objects.get().load == 650


def test_warm_up_sets_have_their_own_count(phone, plan):
    key = f"slot-{plan.curl_slot.pk}"
    for load in ("20", "30"):
        page = phone.get(f"/train/planned/{plan.planned.pk}/", follow=True).content.decode()
        send(phone, plan, fields_of(page, key) | {"load": load, "warm_up": "1"})
    assert list(SetLog.objects.order_by("load").values_list("number", "warm_up")) == [(1, True), (2, True)]
    page = phone.get(f"/train/session/{plan.session}/").content.decode()
    assert fields_of(page, key)["number"] == "1"


def test_pounds_are_kept_as_typed(phone, plan):
    plan.client.user.load_unit = "lb"
    plan.client.user.save()
    values = fields_of(open_page(phone, plan), f"slot-{plan.curl_slot.pk}") | {"load": "135"}
    assert values["unit"] == "lb"
    send(phone, plan, values)
    assert (SetLog.objects.get().load, SetLog.objects.get().unit) == (135, "lb")


def test_set_is_edited_on_its_own_page_and_shows_what_it_was(phone, plan):
    send(phone, plan, fields_of(open_page(phone, plan), f"slot-{plan.curl_slot.pk}") | {"load": "40"})
    row = SetLog.objects.get()
    url = f"/train/set/{row.pk}/"
    assert 'value="40"' in phone.get(url).content.decode()
    values = {"load": "42.5", "unit": "kg", "reps": "9", "rir": "unknown", "side": "both"}
    response = phone.post(url, values)
    assert response.url == f"/train/session/{plan.session}/?at=slot-{plan.curl_slot.pk}"
    assert SetLog.objects.get().rir is None
    assert "before: 40\xa0kg × 8, RIR 1" in phone.get(response.url).content.decode()


def test_refused_edit_keeps_the_page_and_the_values(phone, plan):
    send(phone, plan, fields_of(open_page(phone, plan), f"slot-{plan.curl_slot.pk}") | {"load": "40"})
    response = phone.post(f"/train/set/{SetLog.objects.get().pk}/", {"load": "-1", "unit": "kg", "reps": "9"})
    assert response.status_code == 422
    assert 'value="-1"' in response.content.decode()


def test_deleted_set_can_be_brought_back(phone, plan):
    send(phone, plan, fields_of(open_page(phone, plan), f"slot-{plan.curl_slot.pk}") | {"load": "40"})
    row = SetLog.objects.get()
    phone.post(f"/train/set/{row.pk}/delete/")
    assert SetLog.objects.get().deleted_at is not None
    page = phone.get(f"/train/session/{plan.session}/").content.decode()
    assert "Bring back" in page
    phone.post(f"/train/set/{row.pk}/", {"load": "40", "unit": "kg", "reps": "8", "rir": "1"})
    assert SetLog.objects.get().deleted_at is None


def test_earlier_planned_session_can_be_put_on_its_day(phone, plan):
    day = plan.today - dt.timedelta(days=2)
    plan.planned = make_planned(plan.client, day, {"exercise": plan.curl})
    plan.session = session_id_for(plan.planned.pk)
    values = fields_of(open_page(phone, plan), f"slot-{plan.planned.slots.get().pk}") | {"load": "40", "when": "then"}
    send(phone, plan, values)
    assert Session.objects.get().date == day


def test_exercise_is_skipped_with_a_reason_and_taken_up_again(phone, plan):
    url = f"/train/session/{plan.session}/skip/"
    act = {"planned": plan.planned.pk, "slot": plan.curl_slot.pk}
    phone.post(url, act | {"skipped": "1", "reason": "taken"})
    assert SlotSkip.objects.get().reason == "taken"
    assert "skipped" in phone.get(f"/train/session/{plan.session}/").content.decode()
    phone.post(url, act)
    assert SlotSkip.objects.get().skipped is False


def test_pain_over_five_tells_to_stop(phone, plan):
    report = {"planned": plan.planned.pk, "report": uuid.uuid4(), "exercise": plan.curl.pk, "score": "7"}
    response = phone.post(
        f"/train/session/{plan.session}/pain/", report | {"site": "elbow", "side": "left"}, follow=True
    )
    page = response.content.decode()
    assert "stop this exercise" in page
    assert "licensed clinician" in page
    assert PainReport.objects.get().exercise == plan.curl


def test_body_mass_is_asked_for_once_where_the_body_is_the_load(phone, plan):
    pull_up = make_exercise("pull-up", "body-weight", load_kind="body_plus")
    plan.planned = make_planned(plan.client, plan.today, {"exercise": pull_up})
    page = open_page(phone, plan)
    assert "Your body mass" in page
    assert "Added load" in page
    assert fields_of(page, f"slot-{plan.planned.slots.get().pk}")["load"] == "0"
    phone.post("/train/body-mass/", {"mass": "81,5", "unit": "kg", "back": f"/train/planned/{plan.planned.pk}/"})
    assert BodyMass.objects.get().mass == 81.5
    assert "Your body mass" not in open_page(phone, plan)


def test_assisted_exercise_is_labelled_by_its_assistance(phone, plan):
    dip = make_exercise("assisted-dip", "station", load_kind="assisted")
    plan.planned = make_planned(plan.client, plan.today, {"exercise": dip})
    assert "Assistance (more is easier)" in open_page(phone, plan)


@pytest.mark.parametrize("back", ["https://example.org/", "//example.org", "/train/\\example.org", "/week/", ""])
def test_way_back_never_leads_elsewhere(phone, gym, back):
    assert phone.post("/train/body-mass/", {"mass": "80", "unit": "kg", "back": back}).url == "/train/"


def test_session_is_finished_with_effort_and_minutes(phone, plan):
    send(phone, plan, fields_of(open_page(phone, plan), f"slot-{plan.curl_slot.pk}") | {"load": "40"})
    values = {"session_rpe": "7", "minutes": "55", "note": "good"}
    response = phone.post(f"/train/session/{plan.session}/finish/", values)
    assert response.url == f"/train/done/{plan.session}/"
    session = Session.objects.get()
    assert (session.session_rpe, session.minutes, session.note) == (7, 55, "good")
    assert "first time" in phone.get(response.url).content.decode()


def test_note_is_saved(phone, plan):
    phone.post(f"/train/session/{plan.session}/note/", {"planned": plan.planned.pk, "note": "windy"})
    assert Session.objects.get().note == "windy"


def test_unplanned_session_takes_an_exercise_of_the_library(phone, gym):
    choose = phone.post("/train/session/unplanned/").url
    assert "Curl" in phone.get(choose + "?q=cur").content.decode()
    session = Session.objects.get()
    page = phone.get(f"/train/session/{session.pk}/?exercise={gym.curl.pk}").content.decode()
    values = fields_of(page, f"exercise-{gym.curl.pk}") | {"load": "30", "reps": "12", "rir": "3"}
    phone.post(f"/train/session/{session.pk}/set/", values)
    assert (SetLog.objects.get().exercise, SetLog.objects.get().slot) == (gym.curl, None)


def test_empty_session_can_be_removed(phone, gym):
    phone.post("/train/session/unplanned/")
    session = Session.objects.get()
    assert phone.post(f"/train/session/{session.pk}/discard/").url == "/train/"
    assert not Session.objects.exists()


def test_planned_page_leads_on_to_the_session_that_has_begun(phone, plan):
    plan.apply("session.start", timezone.now(), session=plan.session, planned=plan.planned.pk)
    assert phone.get(f"/train/planned/{plan.planned.pk}/").url == f"/train/session/{plan.session}/"


def test_nobody_else_logs_in_the_session(plan):
    plan.apply("session.start", timezone.now(), session=plan.session, planned=plan.planned.pk)
    answers = {
        name: signed_in(user).get(f"/train/session/{plan.session}/").status_code
        for name, user in (("coach", plan.coach), ("colleague", plan.colleague), ("other", plan.other_client.user))
    }
    assert answers == {"coach": 403, "colleague": 404, "other": 404}
    act = {"planned": plan.planned.pk, "slot": plan.curl_slot.pk, "skipped": "1"}
    assert signed_in(plan.other_client.user).post(f"/train/session/{plan.session}/skip/", act).status_code == 404


def test_planned_id_must_belong_to_the_session_id(phone, plan):
    values = {"planned": plan.planned.pk, "note": "x"}
    assert phone.post(f"/train/session/{uuid.uuid4()}/note/", values).status_code == 404
    assert phone.post(f"/train/session/{plan.session}/note/", {"planned": "x", "note": "x"}).status_code == 404


def test_cost_of_the_page_does_not_grow_with_exercises_and_sets(phone, plan, django_assert_num_queries):
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    plan.apply("session.start", timezone.now(), session=plan.session, planned=plan.planned.pk)
    plan.log(plan.session, at=timezone.now(), slot=plan.curl_slot.pk)
    url = f"/train/session/{plan.session}/"
    with CaptureQueriesContext(connection) as few:
        phone.get(url)
    for n in range(2, 8):
        identity = plan.log(plan.session, at=timezone.now(), slot=plan.curl_slot.pk, number=n)
        plan.apply("set.edit", timezone.now(), set=identity, load=50, unit="kg", reps=5, rir=0)
        plan.log(plan.session, make_exercise(f"extra-{n}", "dumbbell"), at=timezone.now())
    with django_assert_num_queries(len(few)):
        phone.get(url)
