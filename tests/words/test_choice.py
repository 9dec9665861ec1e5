"""Which language a person reads: their own choice, else what the browser asks for, among what is installed."""

import datetime as dt

import polib
import pytest
from django.test import Client as Browser
from django.utils.translation import override

from accounts.forms.people import ProfileForm
from accounts.languages import choices, installed, spoken
from coaching.letters.send import letter
from coaching.models import WeeklyLetter
from tests.logbook.conftest import signed_in
from tests.words.pseudo import CODE, OPEN


def speaking(user, language):
    user.language = language
    user.save()
    return signed_in(user)


def lay_catalogue(folder, locale, **header):
    place = folder / locale / "LC_MESSAGES"
    place.mkdir(parents=True)
    made = polib.POFile()
    made.metadata = {"Content-Type": "text/plain; charset=UTF-8", **header}
    made.append(polib.POEntry(msgid="Save", msgstr="Salvar"))
    made.save_as_mofile(str(place / "django.mo"))


def test_compiled_catalogue_in_the_folder_is_a_language_under_its_own_name(tmp_path):
    lay_catalogue(tmp_path, "pt_BR")
    assert installed([tmp_path / "missing", tmp_path]) == [("en", "English"), ("pt-br", "Português Brasileiro")]


def test_english_comes_first_and_once_whatever_lies_in_the_folders(tmp_path):
    for locale in ("de", "en"):
        lay_catalogue(tmp_path, locale)
    assert [code for code, _ in installed([tmp_path, tmp_path])] == ["en", "de"]


@pytest.mark.parametrize(("share", "says_so"), [("62", True), ("99", True), ("100", False), (None, False)])
def test_language_that_is_translated_in_part_says_so_where_it_is_chosen(tmp_path, settings, share, says_so):
    lay_catalogue(tmp_path, "pt_BR", **({"X-Translated-Percent": share} if share else {}))
    settings.LOCALE_PATHS = [tmp_path]
    settings.LANGUAGES = installed([tmp_path])
    assert (dict(choices())["pt-br"] != "Português Brasileiro") is says_so


def test_browser_is_asked_while_nothing_is_chosen(client, pseudo_language):
    page = client.get("/account/login/", headers={"accept-language": pseudo_language})
    assert f'<html lang="{CODE}">' in page.content.decode()
    assert page["Content-Language"] == CODE
    assert "Accept-Language" in page["Vary"]
    assert '<html lang="en">' in client.get("/account/login/").content.decode()


def test_choice_of_the_person_wins_over_the_browser(world, pseudo_language):
    phone = speaking(world.client.user, CODE)
    page = phone.get("/you/", headers={"accept-language": "en"})
    assert f'<html lang="{CODE}">' in page.content.decode()
    assert page["Content-Language"] == CODE


def test_choice_of_one_person_does_not_reach_the_next_request(world, client, pseudo_language):
    speaking(world.client.user, CODE).get("/you/")
    assert OPEN not in client.get("/account/login/").content.decode()


def test_language_that_is_no_longer_installed_does_no_harm(world):
    page = speaking(world.client.user, "tlh").get("/you/")
    assert '<html lang="en">' in page.content.decode()
    assert spoken("tlh") == "en"


def test_person_chooses_on_their_own_page(world, pseudo_language):
    user = world.client.user
    phone = signed_in(user)
    form = {"name": "Clemens", "time_zone": "UTC", "load_unit": "kg", "language": CODE}
    assert phone.post("/you/", form).status_code == 302
    assert OPEN in phone.get("/you/").content.decode()
    assert phone.post("/you/", form | {"language": "tlh"}).status_code == 422
    user.refresh_from_db()
    assert user.language == CODE


def test_nobody_is_asked_where_there_is_one_language(settings):
    settings.LANGUAGES = [("en", "English")]
    assert "language" not in ProfileForm().fields


def test_letter_about_the_week_is_in_the_language_of_its_reader(world, pseudo_language):
    with override(spoken("tlh")):
        plain = letter(world.client.user, WeeklyLetter.Kind.CLIENT, dt.date(2026, 3, 2), {})
    with override(spoken(CODE)):
        theirs = letter(world.client.user, WeeklyLetter.Kind.CLIENT, dt.date(2026, 3, 2), {})
    assert OPEN not in plain.body + plain.subject
    assert theirs.subject.startswith(OPEN)


def test_scripts_get_their_words_in_the_language_of_the_person(world, pseudo_language):
    words = speaking(world.client.user, CODE).get("/jsi18n/").content.decode()
    assert "\\u27e6saved\\u27e7" in words or "⟦saved⟧" in words


def test_phone_gets_another_worker_with_another_language(world, pseudo_language):
    phone = speaking(world.client.user, "")
    before, listed = phone.get("/sw.js").content.decode(), phone.get("/train/phone/pages/").json()
    phone = speaking(world.client.user, CODE)
    after, again = phone.get("/sw.js").content.decode(), phone.get("/train/phone/pages/").json()
    assert listed["release"] in before
    assert again["release"] in after
    assert listed["release"] != again["release"]
    assert f'"language": "{CODE}"' in after
    # The start page is fetched without a cookie: the worker asks for its language instead.
    start = Browser().get("/train/phone/", headers={"accept-language": CODE})
    assert OPEN in start.content.decode()
