"""What a person reads on a page, and which of it stands outside the pseudo-language."""

import re
from collections.abc import Collection, Iterator
from html.parser import HTMLParser

from tests.words.pseudo import CLOSE, CODE, OPEN

SPOKEN = ("aria-label", "title", "placeholder", "alt", "aria-description", "aria-valuetext")
# Keys and the names of a file's columns are the same in every language.
SILENT = ("script", "style", "kbd", "code")
WORD = re.compile(r"[^\W\d_]{2,}")
# Names and notation: a prescription is written, and read back, as "3 × 8–12 @ 1–2 RIR".
NOTATION = re.compile(r"\b(Sinewright|English|RIR|kg|lb|min|RPE|e1RM|PDF|CSV|XLSX|JSON|UTC)\b")

# Read by a browser or a script, which know one way to write a number.
MACHINE = re.compile(r"^(x|y|x1|x2|y1|y2|cx|cy|r|width|height|min|max|step|value|data-.+)$")
COMMA = re.compile(r"-?\d+,\d+")


class Page(HTMLParser):
    """Collects (where, text) of every text node and every attribute that is read out or shown.

    What says that it is in another language, or not to be translated, is left out, and so are the zones' names.
    """

    def __init__(self) -> None:
        super().__init__()
        self.found: list[tuple[str, str]] = []
        self.numbers: list[str] = []
        self.silent: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        known = dict(attrs)
        if self.silent:
            if tag == self.silent[0]:
                self.silent.append(tag)
            return
        if tag != "input" or known.get("type") in ("number", "range"):
            told = [name for name in known if MACHINE.match(name) and COMMA.fullmatch(known[name] or "")]
            self.numbers += [f"{tag}@{name} cannot be read: {known[name]}" for name in told]
        foreign = known.get("lang", CODE) != CODE or known.get("translate") == "no"
        if tag in SILENT or foreign or (tag == "select" and known.get("name") == "time_zone"):
            self.silent.append(tag)
            return
        spoken = [name for name in known if name in SPOKEN]
        if tag == "input" and known.get("type") in ("submit", "button", "reset"):
            spoken.append("value")
        if tag == "meta" and known.get("name") == "description":
            spoken.append("content")
        # Words that a script shows later; a list of names is no sentence.
        spoken += [name for name in known if name in ("data-busy", "data-failed", "data-words")]
        self.found += [(f"{tag}@{name}", known[name] or "") for name in spoken]

    def handle_endtag(self, tag: str) -> None:
        if self.silent and self.silent[-1] == tag:
            self.silent.pop()

    def handle_data(self, data: str) -> None:
        if not self.silent and data.strip():
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


def untranslated(html: str, known: Collection[str]) -> Iterator[str]:
    """Yield what stands outside the brackets and has words in it that are neither `known` data nor notation."""
    page = Page()
    page.feed(html)
    yield from page.numbers
    depth = 0
    for where, text in page.found:
        left, after = outside(text, depth if where == "text" else 0)
        if where == "text":
            depth = after
        elif after:
            yield f"{where}: a bracket stays open in {text!r}"
        if words(left, known):
            yield f"{where}: {' '.join(left.split())}"
    if depth:
        yield f"{depth} brackets stay open"


def words(text: str, known: Collection[str] = ()) -> bool:
    """Say whether a text still holds words when known data and notation are taken out."""
    if not WORD.search(text) or text.strip() in known:
        return False
    left = NOTATION.sub(" ", text)
    for value in known:
        for form in (value, value[:1].upper() + value[1:]):
            if form in left:
                left = left.replace(form, " ")
    return bool(WORD.search(left))
