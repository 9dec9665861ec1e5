"""What the audit calls each page. Every room registers the words for its own routes when the program starts."""

from collections.abc import Mapping

from django.utils.functional import Promise

WORDS: dict[str, Promise] = {}


def register(words: Mapping[str, Promise]) -> None:
    """Add the words of a room: {route name: what one looks at or changes there}."""
    twice = WORDS.keys() & words.keys()
    if twice:
        raise ValueError(f"These pages have words already: {sorted(twice)}")
    WORDS.update(words)


def words_for(page: str) -> str:
    """Return the words for a page; a page that is gone since keeps its route's name."""
    return str(WORDS.get(page, page))
