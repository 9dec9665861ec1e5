"""Who changed rows of a plan for one client. The rooms above know, and register how to ask them."""

from collections.abc import Callable, Iterable

# Given clients' ids, returns words for each row (by its id) that was changed for its client.
Claims = Callable[[Iterable[int]], dict[int, str]]
_sources: list[Claims] = []


def register(source: Claims) -> None:
    """Add a source; adding it again does nothing."""
    if source not in _sources:
        _sources.append(source)


def claims_on(clients: Iterable[int]) -> dict[int, str]:
    """Return for each changed row (by its id) who changed it, in words."""
    ids = list(clients)
    return {row: words for source in _sources for row, words in source(ids).items()}
