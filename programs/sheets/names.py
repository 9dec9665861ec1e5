"""Exercises as files name them: by reference, by name, or by a name that is nearly one of ours."""

import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from difflib import SequenceMatcher

OWN = "own/"
NEAR = 6
LEAST_LIKE = 0.45


@dataclass(frozen=True, slots=True)
class Known:
    """An exercise that a file may name. `reference` is its slug, with `own/` before it for a practice's own."""

    pk: int
    reference: str
    name: str
    rest_s: int
    archived: bool = False


def plain(name: str) -> str:
    """Return a name as it is compared: without case, accents, punctuation and repeated spaces."""
    text = unicodedata.normalize("NFKD", name).casefold()
    return " ".join(re.sub(r"[^\w]+", " ", "".join(c for c in text if not unicodedata.combining(c))).split())


def _words(name: str) -> str:
    """Return the words in order of the alphabet, so that "curl, incline" is near "incline curl"."""
    return " ".join(sorted(plain(name).split()))


@dataclass(frozen=True)
class Catalogue:
    """The exercises of one practice and of the library; of two with one name the practice's own comes first."""

    by_reference: Mapping[str, Known]
    by_name: Mapping[str, Known]
    words: Mapping[str, str] = field(default_factory=dict)

    @classmethod
    def of(cls, rows: Iterable[Known]) -> "Catalogue":
        listed = sorted(rows, key=lambda one: (one.archived, not one.reference.startswith(OWN), one.reference))
        by_name: dict[str, Known] = {}
        for one in listed:
            by_name.setdefault(plain(one.name), one)
        return cls({one.reference: one for one in listed}, by_name, {key: _words(key) for key in by_name})

    def named(self, text: str) -> Known | None:
        """Return the exercise with this name or reference."""
        return self.by_name.get(plain(text)) or self.by_reference.get(text.strip())

    def near(self, text: str) -> list[str]:
        """Return names that `text` may have meant, the nearest first."""
        wanted, words = plain(text), _words(text)
        scored = []
        for key, one in self.by_name.items():
            if one.archived:
                continue
            score = max(_like(wanted, key), _like(words, self.words[key]))
            if set(words.split()) & set(self.words[key].split()):
                score += 0.1
            if score >= LEAST_LIKE:
                scored.append((-score, one.name))
        return [name for _score, name in sorted(scored)[:NEAR]]


def _like(one: str, other: str) -> float:
    matcher = SequenceMatcher(None, one, other, autojunk=False)
    # The quick bound spares the slow answer for most pairs.
    return matcher.ratio() if matcher.quick_ratio() >= LEAST_LIKE else 0.0
