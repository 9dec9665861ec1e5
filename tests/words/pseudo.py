"""A language made from the catalogue: every message stands in brackets; what stands outside cannot be translated."""

from collections.abc import Iterator
from pathlib import Path

import allauth
import django
import polib
import rest_framework
from django.utils.module_loading import import_string  # noqa: F401

CODE, LOCALE = "en-xa", "en_XA"
OPEN, CLOSE = "⟦", "⟧"
ROOT = Path(__file__).resolve().parents[2]


def bracketed(text: str) -> str:
    """Return the message in brackets; placeholders stay as they are."""
    return f"{OPEN}{text}{CLOSE}"


def borrowed() -> Iterator[polib.POEntry]:
    """Yield the messages of the libraries, which bring catalogues of their own, from their German."""
    own = Path(django.__file__).parent
    for folder in (
        own / "conf",
        own / "contrib/auth",
        *(Path(one.__file__).parent for one in (allauth, rest_framework)),
    ):
        yield from polib.mofile(str(folder / "locale/de/LC_MESSAGES/django.mo"))


def write(folder: Path) -> None:
    """Write the compiled pseudo-language into a locale folder."""
    place = folder / LOCALE / "LC_MESSAGES"
    place.mkdir(parents=True)
    for domain in ("django", "djangojs"):
        catalogue = polib.POFile()
        catalogue.metadata = {
            "Content-Type": "text/plain; charset=UTF-8",
            "Plural-Forms": "nplurals=2; plural=(n != 1);",
        }
        ours = polib.pofile(str(ROOT / "locale" / "de" / "LC_MESSAGES" / f"{domain}.po"))
        made = {}
        for entry in (*(borrowed() if domain == "django" else ()), *ours):
            plural = {0: bracketed(entry.msgid), 1: bracketed(entry.msgid_plural)} if entry.msgid_plural else {}
            made[entry.msgctxt, entry.msgid] = polib.POEntry(
                msgid=entry.msgid,
                msgctxt=entry.msgctxt,
                msgid_plural=entry.msgid_plural,
                msgstr="" if plural else bracketed(entry.msgid),
                msgstr_plural=plural,
            )
        catalogue.extend(made.values())
        catalogue.save_as_mofile(str(place / f"{domain}.mo"))
