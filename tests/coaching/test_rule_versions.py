"""A change of a rule's version, of a threshold, or of the equation marks every row made before it for a rebuild."""

import pkgutil
from dataclasses import replace
from importlib import import_module

import pytest

import periodization
from coaching.recompute import rules, run
from periodization import flags, readiness
from periodization.rules import Rule
from tests.coaching import factories as make

pytestmark = pytest.mark.django_db
# Not behind a week's row: what is drafted or planned, and the questions before the first session.
ELSEWHERE = ("draft.", "ramp.", "spacing.", "duration.", "screening.")


@pytest.fixture(autouse=True)
def fresh():
    """The print of the rules is kept for the life of a process."""
    for cached in (rules.rules_in_use, rules._thresholds):
        cached.cache_clear()
    yield
    for cached in (rules.rules_in_use, rules._thresholds):
        cached.cache_clear()


def every_rule():
    names = [name for _, name, _ in pkgutil.walk_packages(periodization.__path__, "periodization.")]
    found = {getattr(import_module(name), "RULE", None) for name in names}
    return sorted({r.id for r in found if isinstance(r, Rule) and not r.id.startswith(ELSEWHERE)})


def test_every_rule_of_the_arithmetic_is_in_the_print():
    known = {rule for rule, _ in rules.rules_in_use()}
    assert not [rule for rule in every_rule() if rule not in known]


def test_a_new_version_of_a_rule_marks_old_rows_for_a_rebuild(world, exercises, monkeypatch):
    make.train(world.client, world.coach, exercises, weeks=3)
    run.work_off(world.client.pk)
    assert run.work_off(world.client.pk) == []
    monkeypatch.setattr(readiness, "RULE", replace(readiness.RULE, version=readiness.RULE.version + 1))
    rules.rules_in_use.cache_clear()
    rules._thresholds.cache_clear()
    again = run.work_off(world.client.pk)
    assert {make.monday(1), make.monday(2)} <= set(again)
    assert run.work_off(world.client.pk) == []


def test_another_threshold_does_too(world, monkeypatch):
    before = rules.fingerprint(world.client)
    monkeypatch.setattr(flags, "DEFAULT", replace(flags.DEFAULT, floor_share=0.5))
    rules._thresholds.cache_clear()
    assert rules.fingerprint(world.client) != before
