"""A choice is written to the letter as the templates of Django would write it."""

import datetime as dt

import pytest
from django import forms
from django.forms.renderers import TemplatesSetting
from django.utils.safestring import mark_safe
from django.utils.translation import gettext_lazy, override
from hypothesis import given
from hypothesis import strategies as st

from coaching.form_renderer import FormRenderer

words = st.text(st.characters(exclude_categories=["Cs"]), max_size=8)
labels = words | st.integers() | st.floats(allow_nan=False) | st.dates() | words.map(mark_safe) | st.none()
values = words | st.integers() | st.booleans() | st.none() | words.map(mark_safe)
options = st.lists(st.tuples(values, labels), max_size=4)
choices = st.lists(st.tuples(values, labels) | st.tuples(words, options), max_size=5)
attributes = st.dictionaries(st.sampled_from(["id", "class", "disabled", "data-x"]), values, max_size=3)


def same(widget, name, value, attrs):
    ours = widget.render(name, value, attrs, renderer=FormRenderer())
    assert ours == widget.render(name, value, attrs, renderer=TemplatesSetting())
    return ours


@given(choices, words, values, attributes)
def test_any_choices_are_written_as_the_templates_write_them(found, name, value, attrs):
    same(forms.Select(choices=found), name, value, attrs)


@given(choices, st.lists(values, max_size=3), attributes)
def test_so_are_several_at_once(found, value, attrs):
    same(forms.SelectMultiple(choices=found), "x", value, attrs)


def test_nothing_typed_becomes_markup():
    drawn = same(forms.Select(choices=[('"><b>', "<script>")]), "a<b", '"><b>', {"data-x": '"<'})
    assert "<b>" not in drawn
    assert "<script>" not in drawn
    assert drawn.count(" selected") == 1


@pytest.mark.parametrize("language", ["en", "de"])
def test_words_numbers_and_days_are_those_of_the_language(language):
    found = [(1, gettext_lazy("Load")), (2, 1234.5), (3, dt.date(2026, 3, 2)), ("g", [(4, 0.5)])]
    with override(language):
        same(forms.Select(choices=found), "x", 2, {})


class Own(forms.Select):
    option_template_name = "django/forms/widgets/radio_option.html"


def test_options_with_a_template_of_their_own_keep_it():
    assert "<label" in same(Own(choices=[("a", "A")]), "x", "a", {})
