"""What a person reads on a page, and which of it stands outside the pseudo-language."""

import re
from collections.abc import Iterator
from html.parser import HTMLParser

from tests.words.pseudo import CLOSE, OPEN

SPOKEN = ("aria-label", "title", "placeholder", "alt", "aria-description", "aria-valuetext")
SILENT = ("script", "style")
WORD = re.compile(r"[^\W\d_]{2,}")


class Page(HTMLParser):
    """Collects (where, text) of every text node and every attribute that is read out or shown."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[tuple[str, str]] = []
        self.within: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        known = dict(attrs)
        spoken = [name for name in known if name in SPOKEN]
        if tag == "input" and known.get("type") in ("submit", "button", "reset"):
            spoken.append("value")
        if tag == "meta" and known.get("name") == "description":
            spoken.append("content")
        # Words that a script of ours shows later.
        spoken += [name for name in known if name.startswith("data-") and " " in (known[name] or "").strip()]
        self.found += [(f"{tag}@{name}", known[name] or "") for name in spoken]
        if tag in SILENT:
            self.within.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if self.within and self.within[-1] == tag:
            self.within.pop()

    def handle_data(self, data: str) -> None:
        if not self.within and data.strip():
            self.found.append(("text", data))


def outside(text: str, depth: int = 0) -> tuple[str, int]:
    """Return what of a text stands in no bracket, and how many brackets are open after it."""
    kept = []
    for letter in text:
        if letter == OPEN:
            depth += 1
            kept.append(" ")
        elif letter == CLOSE:
            depth -= 1
        elif not depth:
            kept.append(letter)
    return "".join(kept), depth


def untranslated(html: str) -> Iterator[tuple[str, str]]:
    """Yield (where, text) of what stands outside the brackets and has words in it."""
    page = Page()
    page.feed(html)
    depth = 0
    for where, text in page.found:
        left, after = outside(text, depth if where == "text" else 0)
        if where == "text":
            depth = after
        elif after:
            yield where, f"unbalanced: {text}"
        if WORD.search(left):
            yield where, " ".join(left.split())
    if depth:
        yield "page", f"{depth} brackets open at the end"
