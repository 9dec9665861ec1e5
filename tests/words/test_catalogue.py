"""What the catalogues hold: placeholders as in the message, and every word that a script asks for."""

import json
import re

import polib
import pytest

from periodization.sentences import SENTENCES, SINGULAR
from programs.sentences import in_words, singulars, templates
from tests.words.pseudo import ROOT

CATALOGUES = sorted((ROOT / "locale").glob("*/LC_MESSAGES/*.po"))
PLACEHOLDER = re.compile(r"%\(\w+\)[sd]|\{\w*\}|%%|</?\w+>")
ASKED = re.compile(r'n?gettext\(\s*("(?:[^"\\]|\\.)*")')


def held(text):
    return sorted(PLACEHOLDER.findall(text))


@pytest.mark.parametrize("path", CATALOGUES, ids=lambda path: f"{path.parts[-3]} {path.stem}")
def test_translations_keep_every_placeholder_and_every_mark(path):
    wrong = []
    for entry in polib.pofile(str(path)).translated_entries():
        said = list(entry.msgstr_plural.values()) if entry.msgid_plural else [entry.msgstr]
        meant = [held(entry.msgid), *([held(entry.msgid_plural)] if entry.msgid_plural else [])]
        wrong += [entry.msgid for text in said if held(text) not in meant]
    assert wrong == []


@pytest.mark.parametrize("path", CATALOGUES, ids=lambda path: f"{path.parts[-3]} {path.stem}")
def test_compiled_catalogue_says_what_its_source_says(path):
    compiled = polib.mofile(str(path.with_suffix(".mo")))
    translated = polib.pofile(str(path)).translated_entries()
    assert {(e.msgctxt, e.msgid): e.msgstr for e in compiled} == {(e.msgctxt, e.msgid): e.msgstr for e in translated}


def test_every_word_that_a_script_asks_for_is_a_message():
    known = {entry.msgid for entry in polib.pofile(str(ROOT / "locale/de/LC_MESSAGES/djangojs.po"))}
    scripts = [path for path in (ROOT / "static").rglob("*.js") if "vendor" not in path.parts]
    asked = {json.loads(text) for path in scripts for text in ASKED.findall(path.read_text(encoding="utf-8"))}
    assert asked
    assert asked - known == set()


def test_every_sentence_of_the_arithmetic_is_a_message():
    entries = polib.pofile(str(ROOT / "locale/de/LC_MESSAGES/django.po"))
    known = {text for entry in entries for text in (entry.msgid, entry.msgid_plural)}
    assert set(SENTENCES.values()) - known == set()


def test_sentence_about_one_is_in_the_singular():
    assert in_words("trend_too_few", {"points": 1, "minimum": 4}).startswith("1 session is")
    assert in_words("trend_too_few", {"points": 3, "minimum": 4}).startswith("3 sessions are")
    assert in_words("ramp_under_floor", {"sets": 1.5, "floor": 4, "ceiling": 8}).startswith("1.5 sets are")


def test_both_forms_of_a_sentence_fill_the_same_places():
    every = templates()
    assert set(SINGULAR) < set(singulars())
    for code, (number, one) in singulars().items():
        assert f"{{{number}}}" in one
        assert held(one) == held(every[code])
