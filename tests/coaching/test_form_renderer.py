"""Nothing is drawn for a field without errors, and what has errors says them as before."""

import pytest
from django import forms
from django.forms.renderers import TemplatesSetting

from coaching.form_renderer import FormRenderer


class Order(forms.Form):
    count = forms.IntegerField(min_value=1)
    note = forms.CharField(required=False)


@pytest.mark.parametrize("data", [{"count": "2"}, {"count": "0"}, {"count": "x <b>"}, {}])
def test_errors_are_drawn_as_the_templates_draw_them(data):
    ours, theirs = Order(data, renderer=FormRenderer()), Order(data, renderer=TemplatesSetting())
    for form in (ours, theirs):
        form.full_clean()
    assert str(ours.errors) == str(theirs.errors)
    assert str(ours["count"].errors) == str(theirs["count"].errors)
    assert str(ours.non_field_errors()) == str(theirs.non_field_errors()) == ""
    assert ours.as_div() == theirs.as_div()


def test_no_template_is_drawn_where_nothing_is_wrong(monkeypatch):
    form = Order({"count": "2"}, renderer=FormRenderer())
    monkeypatch.setattr(FormRenderer, "get_template", lambda *_: pytest.fail("a template was drawn"))
    assert str(form["count"].errors) == str(form.non_field_errors()) == str(form.errors) == ""


def test_a_field_is_drawn_by_the_template_of_the_house():
    drawn = Order()["note"].as_field_group()
    assert drawn.startswith('<div class="field">')
    assert '<label for="id_note">Note</label>' in drawn


class Ticks(forms.Form):
    days = forms.MultipleChoiceField(choices=[(n, f"day {n}") for n in range(40)], widget=forms.CheckboxSelectMultiple)


def test_what_is_wrong_with_ticks_stands_above_them_and_beside_one_field_below_it():
    ticks = Ticks({})["days"].as_field_group()
    assert ticks.count("errorlist") == 1
    assert ticks.index("<legend") < ticks.index("errorlist") < ticks.index("<input")
    one = Order({})["count"].as_field_group()
    assert one.count("errorlist") == 1
    assert one.index("<input") < one.index("errorlist")


def test_the_pages_use_it(settings):
    assert settings.FORM_RENDERER == "coaching.form_renderer.FormRenderer"
    assert isinstance(Order().renderer, FormRenderer)
