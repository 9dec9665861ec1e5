"""The pseudo-language, installed as an operator would: by laying a compiled catalogue into a locale folder."""

import pytest
from django.utils.formats import reset_format_cache

from accounts.languages import installed
from tests.words import pseudo


@pytest.fixture(scope="session")
def pseudo_folder(tmp_path_factory):
    folder = tmp_path_factory.mktemp("locale")
    pseudo.write(folder)
    return folder


@pytest.fixture
def pseudo_language(settings, pseudo_folder):
    """Install the pseudo-language beside English; it writes numbers with a comma."""
    settings.LOCALE_PATHS = [pseudo_folder]
    settings.LANGUAGES = installed(settings.LOCALE_PATHS)
    settings.FORMAT_MODULE_PATH = ["coaching.formats", "tests.words.formats"]
    reset_format_cache()
    yield pseudo.CODE
    reset_format_cache()
