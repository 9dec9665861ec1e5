"""Reasons in words: names for slugs and ids, loads in the reader's unit, and no page that breaks on a new code."""

import pytest
from django.template import Context, Template

from programs.sentences import Words, in_words, register

PAGE = Template("{% load sentences %}{{ reason|sentence:words }}")


def said(reason, words=None):
    return PAGE.render(Context({"reason": reason, "words": words}))


def test_group_slugs_are_shown_by_name_and_numbers_without_trailing_zeros():
    params = {"group": "side-delt", "hours": 24.0, "minimum_hours": 48}
    words = Words(groups={"side-delt": "side shoulder"})
    assert in_words("group_due_too_soon", params, words).startswith("side shoulder is trained again after 24 h")


def test_a_load_is_said_in_the_readers_unit(monkeypatch):
    monkeypatch.setattr("programs.sentences._templates", {"x": "Up to {load} kg."})
    assert in_words("x", {"load": 45.359237}, Words("lb")) == "Up to 100 lb."
    assert in_words("x", {"load": 52.5}, Words("kg")) == "Up to 52.5 kg."


def test_a_load_that_can_be_made_is_said_whole_and_an_estimate_to_a_tenth(monkeypatch):
    monkeypatch.setattr("programs.sentences._templates", {"x": "{load} kg"})
    assert in_words("x", {"load": 31.25}, Words("kg")) == "31.25 kg"
    assert in_words("x", {"load": 31.27}, Words("kg")) == "31.3 kg"
    assert in_words("x", {"load": 31.25}, Words("lb")) == "68.9 lb"


def test_a_reason_as_stored_is_said_and_escaped():
    assert said({"code": "pain_watch", "params": {"score": "<b>"}}).count("&lt;b&gt;") == 1


def test_an_unknown_code_does_not_break_the_page():
    assert said({"code": "from_the_future", "params": {}}) == "from_the_future"


def test_two_rooms_cannot_give_one_code_two_sentences():
    with pytest.raises(ValueError, match="pain_watch"):
        register({"pain_watch": "Something else."})
