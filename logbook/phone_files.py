"""Which files a phone keeps of a release, and the release's name."""

import hashlib
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

from django.conf import settings
from django.templatetags.static import static
from django.utils.translation import get_language

FOLDERS = ("logbook", "base")
SINGLE = ("vendor/idb/idb.js", "vendor/public-sans/public-sans-latin.woff2", "icons/mark.svg")
# Pages kept on a phone are of a release, too: new words in a template must reach them.
TEMPLATES = ("base.html", "phone.html", "logbook", "partials")


def _sources() -> Iterator[tuple[str, Path]]:
    """Yield (static name, path) of every file that a phone page uses."""
    root = Path(settings.STATICFILES_DIRS[0])
    for folder in FOLDERS:
        for path in sorted((root / folder).rglob("*")):
            if path.suffix in (".js", ".css"):
                yield path.relative_to(root).as_posix(), path
    for name in SINGLE:
        yield name, root / name


@lru_cache(maxsize=1)
def phone_files() -> tuple[str, ...]:
    """Return the addresses of the files."""
    return tuple(static(name) for name, _ in _sources())


@lru_cache(maxsize=1)
def release() -> str:
    """Name this release by the content of its files and templates, so that the name changes exactly when they do."""
    digest = hashlib.sha256()
    for name, path in _sources():
        digest.update(name.encode() + b"\0" + path.read_bytes())
    root = Path(settings.TEMPLATES[0]["DIRS"][0])
    for start in TEMPLATES:
        found = [root / start] if (root / start).is_file() else sorted((root / start).rglob("*.html"))
        for path in found:
            digest.update(path.read_bytes())
    for path in _catalogues():
        digest.update(path.read_bytes())
    return digest.hexdigest()[:12]


def spoken_release() -> str:
    """Name the release in the language that is active: what a phone keeps is in one language."""
    return f"{release()}-{get_language()}"


def _catalogues() -> Iterator[Path]:
    """Yield the compiled catalogues: new words in one must reach the phones, too."""
    for folder in settings.LOCALE_PATHS:
        yield from sorted(Path(folder).glob("*/LC_MESSAGES/*.mo"))
