"""The daily check-in and the body mass on their page."""

from logbook.models import BodyMass, CheckIn
from tests.logbook.test_page_today import text_of

ANSWERS = {"fatigue": "4", "sleep": "3", "soreness": "2", "stress": "5", "mood": "4", "sore_groups": ["biceps"]}


def test_anchors_stand_beside_the_numbers(phone, gym):
    page = text_of(phone.get("/train/check-in/"))
    for words in ("very fresh", "insomnia", "very sore", "very relaxed", "highly annoyed, irritable or down"):
        assert words in page


def test_check_in_is_saved_and_shown_filled_in(phone, gym):
    assert phone.post("/train/check-in/", ANSWERS).url == "/train/"
    row = CheckIn.objects.get()
    assert (row.total, row.sore_groups) == (18, ["biceps"])
    body = phone.get("/train/check-in/").content.decode()
    assert 'name="sleep" value="3" checked' in body
    assert 'value="biceps" checked' in body


def test_change_keeps_and_shows_the_earlier_answers(phone, gym):
    phone.post("/train/check-in/", ANSWERS)
    phone.post("/train/check-in/", ANSWERS | {"mood": "1"})
    assert CheckIn.objects.get().mood == 1
    assert "Mood 4" in text_of(phone.get("/train/check-in/"))


def test_missing_answer_stands_beside_its_item_and_the_others_are_kept(phone, gym):
    response = phone.post("/train/check-in/", {name: value for name, value in ANSWERS.items() if name != "mood"})
    assert response.status_code == 422
    assert "This field is required." in text_of(response)
    assert 'name="fatigue" value="4" checked' in response.content.decode()
    assert not CheckIn.objects.exists()


def test_body_mass_is_saved_with_a_comma_and_refused_with_a_reason(phone, gym):
    phone.post("/train/body-mass/", {"mass": "81,5", "unit": "kg", "back": "/train/check-in/"})
    assert BodyMass.objects.get().mass == 81.5
    response = phone.post("/train/body-mass/", {"mass": "8", "unit": "kg", "back": "/train/check-in/"}, follow=True)
    assert "between 20 and 400 kg" in text_of(response)
    assert BodyMass.objects.get().mass == 81.5
