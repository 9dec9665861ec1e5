"""Strict readers of environment variables: nonsense stops the start with the variable's name and a hint."""

import os
from pathlib import Path

from django.core.exceptions import ImproperlyConfigured

PREFIX = "SINEWRIGHT_"


def text(name: str, default: str | None = None) -> str:
    """Read SINEWRIGHT_<name>, or the file that SINEWRIGHT_<name>_FILE names (for secrets)."""
    variable = PREFIX + name
    path = os.environ.get(variable + "_FILE")
    if path:
        try:
            return Path(path).read_text(encoding="utf-8").strip()
        except OSError as error:
            raise ImproperlyConfigured(f"{variable}_FILE names a file that cannot be read: {error}") from error
    value = os.environ.get(variable, default)
    if value is None:
        raise ImproperlyConfigured(f"{variable} is not set. See .env.example for what it should hold.")
    return value


def boolean(name: str, default: bool) -> bool:
    """Read a switch; only 'true' and 'false' are understood, so that a typing error cannot open a door."""
    value = text(name, "true" if default else "false").lower()
    if value not in ("true", "false"):
        raise ImproperlyConfigured(f"{PREFIX}{name} must be true or false, not {value!r}.")
    return value == "true"


def integer(name: str, default: int, *, minimum: int = 0) -> int:
    """Read a whole number that is at least `minimum`."""
    value = text(name, str(default))
    if not value.lstrip("-").isdigit() or int(value) < minimum:
        raise ImproperlyConfigured(f"{PREFIX}{name} must be a whole number of {minimum} or more, not {value!r}.")
    return int(value)


def choice(name: str, default: str, options: tuple[str, ...]) -> str:
    """Read one of `options`."""
    value = text(name, default)
    if value not in options:
        raise ImproperlyConfigured(f"{PREFIX}{name} must be one of {', '.join(options)}, not {value!r}.")
    return value


def words(name: str, default: str) -> list[str]:
    """Read a comma-separated list without empty items."""
    return [word.strip() for word in text(name, default).split(",") if word.strip()]
