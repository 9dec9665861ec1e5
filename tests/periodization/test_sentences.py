"""Every code that the arithmetic can give has its sentence, and the sentence its values."""

import re
from pathlib import Path
from string import Formatter

import pytest

import periodization
from periodization.progression.target import COUNTED_CODES
from periodization.readiness import ITEMS, CheckIn, readiness
from periodization.rules import Reason
from periodization.sentences import SENTENCES, sentence

SOURCES = sorted(Path(periodization.__path__[0]).rglob("*.py"))


def test_every_code_in_the_source_has_a_sentence():
    codes = {code for path in SOURCES for code in re.findall(r'Reason\(\s*"(\w+)"', path.read_text())}
    assert codes
    assert codes <= set(SENTENCES)


@pytest.mark.parametrize("code", SENTENCES)
def test_templates_have_named_places_only(code):
    assert all(name is None or name.isidentifier() for _, name, _, _ in Formatter().parse(SENTENCES[code]))


def test_sentence_is_filled():
    from datetime import date

    found = readiness(CheckIn(date(2026, 3, 2), *[3.0] * len(ITEMS)), [])
    assert sentence(found.reason) == "0 earlier check-ins; 7 are needed before a day can be compared."


def test_unknown_code_is_an_error_and_not_an_empty_line():
    with pytest.raises(KeyError):
        sentence(Reason("no_such_code"))


@pytest.mark.parametrize("unit", ["seconds", "steps"])
@pytest.mark.parametrize("code", sorted(COUNTED_CODES))
def test_seconds_and_steps_are_never_called_repetitions(code, unit):
    said = SENTENCES[f"{code}_{unit}"]
    assert "repetition" not in said.lower()
    assert Formatter().parse(said)
    assert SENTENCES[code] != said
