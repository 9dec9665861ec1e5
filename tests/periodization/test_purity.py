"""The arithmetic reads no clock, no file and no network, and imports nothing but the standard library."""

import ast
import sys
from pathlib import Path

import pytest

import periodization

SOURCES = sorted(Path(periodization.__path__[0]).rglob("*.py"))
# The solver of drafts is no arithmetic of ours: one module hands it a model and reads the answer.
ADAPTERS = {"draft/highs.py": {"highspy"}}
FORBIDDEN = {"os", "io", "random", "socket", "subprocess", "time", "urllib", "sqlite3", "logging", "pathlib"}


@pytest.mark.parametrize("path", SOURCES, ids=lambda p: f"{p.parent.name}/{p.name}")
def test_module_is_pure(path):
    tree = ast.parse(path.read_text())
    roots = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            roots |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0
            roots.add((node.module or "").split(".")[0])
        elif isinstance(node, ast.Call):
            name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            assert name not in {"now", "today", "utcnow", "open", "print"}
    allowed = {"periodization"} | ADAPTERS.get(f"{path.parent.name}/{path.name}", set())
    assert roots - allowed <= set(sys.stdlib_module_names) - FORBIDDEN
