"""What holds for every rule and any log."""

from dataclasses import replace
from datetime import timedelta
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from periodization.deload import DEFAULT as DELOAD
from periodization.flags import DEFAULT, RULES, ClientHistory, evaluate, longest_window
from periodization.rules import Reason
from periodization.sentences import sentence
from tests.periodization.flag_logs import TODAY, histories, quiet
from tests.published.tables import METHODS, table


@pytest.mark.parametrize("rule", RULES, ids=lambda r: r.rule.id)
@given(log=histories, noise=histories)
def test_flag_is_unchanged_by_data_outside_its_window(rule, log, noise):
    first = TODAY - timedelta(rule.window(DEFAULT))
    inside = log.between(first, TODAY)
    far = tuple(
        tuple(x for x in rows if not first <= getattr(x, "day", getattr(x, "week", None)) <= TODAY)
        for rows in (noise.exposures, noise.check_ins, noise.pains, noise.planned, noise.volume)
    )
    more = ClientHistory(
        inside.exposures + far[0],
        inside.check_ins + far[1],
        inside.pains + far[2],
        inside.planned + far[3],
        inside.volume + far[4],
    )
    assert rule.evaluate(more, TODAY, DEFAULT) == rule.evaluate(inside, TODAY, DEFAULT)


@given(log=histories, seed=st.integers(0, 1000))
def test_flags_do_not_depend_on_the_order_of_the_log(log, seed):
    rng = Random(seed)
    names = ("check_ins", "pains", "planned")
    shuffled = replace(log, **{n: tuple(rng.sample(getattr(log, n), len(getattr(log, n)))) for n in names})
    unique = len({(e.day, e.session_id, e.exercise_id) for e in log.exposures}) == len(log.exposures)
    if unique:
        shuffled = replace(shuffled, exposures=tuple(rng.sample(log.exposures, len(log.exposures))))
    once_a_day = len({c.day for c in log.check_ins}) == len(log.check_ins)
    if not once_a_day:
        shuffled = replace(shuffled, check_ins=log.check_ins)
    assert evaluate(shuffled, TODAY) == evaluate(log, TODAY)


@given(log=histories)
def test_every_flag_can_be_said_and_asked_why(log):
    flags = evaluate(log, TODAY)
    assert flags == evaluate(log, TODAY)
    for flag in flags:
        assert sentence(Reason(flag.code, flag.params))
        assert sentence(Reason(flag.clears_code, flag.clears_params))
        assert flag.evidence_ids
        assert flag.thresholds
        assert flag.values
        assert flag.version >= 1
        assert flag.opened_on <= TODAY
        assert flag.weight >= 0
    keys = [(f.rule_id, f.subject_kind, f.subject) for f in flags]
    assert len(keys) == len(set(keys)), "one flag per rule and subject, so that a row can be found again"


def test_a_quiet_client_has_no_flag():
    assert evaluate(quiet(), TODAY) == ()


def test_no_history_is_no_flag():
    assert evaluate(ClientHistory(), TODAY) == ()


def test_rule_ids_are_unique():
    ids = [rule.rule.id for rule in RULES]
    assert len(ids) == len(set(ids)) >= 8


def test_a_history_of_the_longest_window_is_enough():
    log = quiet()
    cut = log.between(TODAY - timedelta(longest_window()), TODAY)
    assert evaluate(cut, TODAY) == evaluate(log, TODAY)


def test_the_methods_page_names_every_rule_and_the_weight_in_use():
    page = (METHODS / "flags.md").read_text(encoding="utf-8")
    ids = {rule.rule.id for rule in RULES}
    assert all(f"| {rule} |" in page for rule in ids)
    assert {row["rule"] for row in table("flags", "flags-5")} <= ids
    assert DELOAD.weight_needed in {float(row["weight"]) for row in table("flags", "flags-6")}
