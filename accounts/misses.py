"""Count wrong guesses at one caller's address, so that guessing secrets stops being free.

Counted in the cache, in windows of fixed length: with Redis for all processes together, without it for each process.
"""

import contextlib

from django.core.cache import cache
from django.http import HttpRequest

from accounts.adapter import client_ip

WINDOW_S = 600
MOST = 30


def _key(request: HttpRequest, what: str) -> str:
    return f"misses:{what}:{client_ip(request) or 'nowhere'}"


def too_many_misses(request: HttpRequest, what: str) -> bool:
    """Say whether this address has guessed wrongly too often in the running window."""
    return cache.get(_key(request, what), 0) >= MOST


def count_miss(request: HttpRequest, what: str) -> None:
    """Count one wrong guess."""
    key = _key(request, what)
    cache.add(key, 0, WINDOW_S)
    with contextlib.suppress(ValueError):  # the window ended between the two
        cache.incr(key)
