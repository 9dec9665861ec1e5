"""The page that explains a flag names each figure in words, for every rule there is."""

import ast
import importlib
import pkgutil
from pathlib import Path

import pytest

from coaching.figures import NAMES, NUMBERED, figures
from periodization import flags
from programs.sentences import Words


def kept_by_the_rules():
    """Yield (rule id, name) of every figure that a rule writes into `values` or `thresholds`."""
    for found in pkgutil.iter_modules(flags.__path__):
        module = importlib.import_module(f"periodization.flags.{found.name}")
        if not hasattr(module, "RULE"):
            continue
        for node in ast.walk(ast.parse(Path(module.__file__).read_text())):
            if isinstance(node, ast.keyword) and node.arg in ("values", "thresholds"):
                for part in ast.walk(node.value):
                    if isinstance(part, ast.Dict):
                        yield from ((module.RULE.id, key.value) for key in part.keys if isinstance(key, ast.Constant))


KEPT = sorted(set(kept_by_the_rules()))


def test_rules_were_found():
    assert len({rule for rule, _ in KEPT}) >= 9


@pytest.mark.parametrize(("rule", "name"), KEPT)
def test_every_figure_has_words(rule, name):
    assert f"{rule}/{name}" in NAMES or name in NAMES


def test_loads_are_in_the_readers_unit_and_numbers_as_compared():
    words = Words("lb")
    values = {"expected_kg": 100.0, "observed_2": 90.0}
    assert figures("performance.under_expected", values, words) == [
        ("expected e1RM", "220.5\u00a0lb"),
        (NUMBERED["observed"] % {"n": 2}, "198.4\u00a0lb"),
    ]
    rule = "performance.overall_under_expected"
    assert [value for _, value in figures(rule, {"day_sd": 0.025, "act": -1.8, "recent_days": 7}, words)] == [
        "0.025",
        "−1.8",
        "7",
    ]
