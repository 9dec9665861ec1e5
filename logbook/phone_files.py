"""Which files a phone keeps of a release, and the release's name."""

import hashlib
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

from django.conf import settings
from django.templatetags.static import static

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
    return digest.hexdigest()[:12]
