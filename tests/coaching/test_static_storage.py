"""Static files as production serves them: every import of a script leads to a file of the same release."""

import re
from pathlib import Path

import pytest
from django.conf import settings
from django.core.management import call_command
from django.test import override_settings

from coaching.static_storage import ROOMS, StaticStorage

IMPORTED = re.compile(r"""(?:from|import)\s*\(?\s*["']([./][^"']+)["']""")


@pytest.fixture(scope="module")
def collected(tmp_path_factory):
    """The folder of collected files, made once."""
    folder = tmp_path_factory.mktemp("static")
    storages = {**settings.STORAGES, "staticfiles": {"BACKEND": "coaching.static_storage.StaticStorage"}}
    with override_settings(STATIC_ROOT=str(folder), STORAGES=storages):
        call_command("collectstatic", interactive=False, verbosity=0)
        yield folder, StaticStorage()


def hashed_scripts(folder: Path) -> list[Path]:
    return [path for path in folder.rglob("*.js") if re.search(r"\.[0-9a-f]{12}\.js$", path.name)]


def test_every_import_of_a_script_is_a_hashed_file_that_exists(collected):
    folder, _ = collected
    wrong, seen = [], 0
    for script in hashed_scripts(folder):
        if script.relative_to(folder).parts[0] not in ROOMS:
            continue
        for target in IMPORTED.findall(script.read_text(encoding="utf-8")):
            seen += 1
            path = folder / target.removeprefix("/static/") if target.startswith("/") else script.parent / target
            if not re.search(r"\.[0-9a-f]{12}\.js$", target) or not path.resolve().is_file():
                wrong.append(f"{script.name}: {target}")
    assert seen > 40
    assert wrong == []


def test_a_change_deep_down_renames_whatever_imports_it(collected):
    """The session's page must not run with last release's outbox: its own name changes with the outbox."""
    folder, storage = collected
    session = (folder / storage.stored_name("logbook/session.js")).read_text(encoding="utf-8")
    delivery = storage.stored_name("logbook/offline/delivery.js").rsplit("/", 1)[1]
    outbox = storage.stored_name("logbook/outbox.js").rsplit("/", 1)[1]
    assert delivery in session
    assert outbox in (folder / "logbook" / "offline" / delivery).read_text(encoding="utf-8")


def test_scripts_are_compressed(collected):
    folder, storage = collected
    assert (folder / (storage.stored_name("logbook/session.js") + ".gz")).is_file()
