"""The facts of an exercise are read as plain values, and say what the exercise itself says."""

import pytest

from programs.models import Exercise, Head
from programs.services.tally_facts import facts_of, load_anatomy
from tests.programs.library_fixture import library, library_rows  # noqa: F401 - fixtures

pytestmark = pytest.mark.django_db


def test_facts_are_those_of_the_model(library):  # noqa: F811
    facts = facts_of(Exercise.objects.all())
    assert list(facts) == [row.pk for row in Exercise.objects.all()]
    for row in Exercise.objects.select_related("equipment"):
        fact = facts[row.pk]
        assert (fact.name, fact.equipment, list(fact.cautions)) == (row.name, row.equipment.name, row.cautions)
        assert (fact.one_sided, fact.rep_s, fact.setup_s) == (row.each_side, row.seconds_a_rep, row.setup_s)
        assert fact.rep_unit == ("" if row.has_maximum else row.get_rep_unit_display())
        assert fact.archived == (row.archived_at is not None)
        assert fact.credits == dict(row.credits.values_list("head__slug", "credit"))
        assert fact.long == set(row.credits.filter(loaded_long=True).values_list("head__slug", flat=True))


def test_facts_that_are_known_are_not_read_again(library, django_assert_num_queries):  # noqa: F811
    known = facts_of(Exercise.objects.all())
    with django_assert_num_queries(1):
        again = facts_of(Exercise.objects.order_by("-pk"), known)
    assert again == known
    assert list(again) == sorted(known, reverse=True)


def test_heads_are_named_as_they_name_themselves(library):  # noqa: F811
    assert load_anatomy().head_names == {head.slug: str(head) for head in Head.objects.select_related("muscle")}
