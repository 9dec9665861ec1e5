"""Which languages this installation speaks: English, and every compiled catalogue that lies in a locale folder."""

import gettext
from collections.abc import Iterable
from pathlib import Path

from django.conf import settings
from django.conf.locale import LANG_INFO
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, override, to_language

ENGLISH = ("en", "English")
# scripts/messages writes it into a catalogue's header: how many of a hundred messages are translated.
SHARE = "x-translated-percent"


def installed(folders: Iterable[Path]) -> list[tuple[str, str]]:
    """Return (code, own name) of English and of each language with a django.mo in one of `folders`.

    The settings call it, so it touches nothing of Django's that needs settings.
    """
    found = {}
    for folder in folders:
        for compiled in sorted(Path(folder).glob("*/LC_MESSAGES/django.mo")):
            code = to_language(compiled.parts[-3])
            name = LANG_INFO.get(code, {}).get("name_local", code)
            found.setdefault(code, name[:1].upper() + name[1:])
    found.pop(ENGLISH[0], None)
    return [ENGLISH, *sorted(found.items())]


def share_of(code: str) -> int:
    """Return how many of a hundred messages a language translates; 100 when its catalogue does not say."""
    for folder in settings.LOCALE_PATHS:
        for compiled in Path(folder).glob("*/LC_MESSAGES/django.mo"):
            if to_language(compiled.parts[-3]) == code:
                with compiled.open("rb") as file:
                    told = gettext.GNUTranslations(file).info().get(SHARE, "100")
                return int(told) if told.isdigit() else 100
    return 100


def choices() -> list[tuple[str, str]]:
    """Return the languages to choose from, each in its own words; one that is not whole says so in its own words."""
    return [
        ("", gettext_lazy("As the browser asks")),
        *((code, _label(code, name)) for code, name in settings.LANGUAGES),
    ]


def _label(code: str, name: str) -> str:
    if share_of(code) >= 100:
        return name
    with override(code):
        return _("%(language)s (in part; the rest is in English)") % {"language": name}


def spoken(code: str) -> str:
    """Return `code` if that language is installed, else the installation's own: no browser asks for a letter."""
    return code if code in dict(settings.LANGUAGES) else settings.LANGUAGE_CODE
