"""A load is said as the phone says it: never a bare 0 kg for the body's own weight."""

import pytest

from logbook import wording
from programs.templatetags.loads import load_words


@pytest.mark.parametrize(
    ("kg", "unit", "load_kind", "equipment", "said"),
    [
        (20, "kg", "external", "dumbbells", "20&nbsp;kg"),
        (0, "kg", "external", "plates", "0&nbsp;kg"),
        (0, "kg", "body_plus", "body", "body weight"),
        (5, "kg", "body_plus", "body", "body weight + 5&nbsp;kg"),
        (9.07, "lb", "body_plus", "body", "body weight + 20&nbsp;lb"),
        (20, "kg", "assisted", "assisted", "20&nbsp;kg assistance"),
        (0, "kg", "assisted", "assisted", "no assistance"),
        (0, "kg", "external", "none", ""),
        (None, "kg", "body_plus", "body", "–"),
    ],
)
def test_a_load_is_said_by_what_it_is(kg, unit, load_kind, equipment, said):
    assert load_words(kg, unit, load_kind, equipment) == said


@pytest.mark.parametrize("load_kind", ["external", "body_plus", "assisted"])
@pytest.mark.parametrize("equipment", ["plates", "body", "assisted", "none"])
@pytest.mark.parametrize("kg", [0, 2.5, 40])
def test_the_desk_and_the_phone_say_the_same(kg, load_kind, equipment):
    phone = wording.load_words(kg, "kg", {"load_kind": load_kind, "equipment": {"kind": equipment}})
    assert load_words(kg, "kg", load_kind, equipment).replace("&nbsp;", "\u00a0") == phone
