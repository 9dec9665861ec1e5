"""What is wanted on paper."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from typing import Any
from urllib.parse import urlencode

PAPERS = ("a4", "letter")


@dataclass(frozen=True, slots=True)
class Options:
    """`first` and `last` are places of weeks in the whole program. `boxes`: room to write load, repetitions and RIR.

    `client` and `loads`: the client's name and starting loads, on their own copy. `paper` counts for the PDF; a
    browser's printer knows its own.
    """

    first: int
    last: int
    guides: bool = True
    reasons: bool = True
    boxes: bool = False
    client: bool = False
    loads: bool = False
    paper: str = "a4"

    def query(self) -> str:
        """Return the options as the part of an address behind the question mark."""
        values = {"chosen": "yes", "first": self.first, "last": self.last, "paper": self.paper}
        return urlencode(values | {name: "yes" for name in SWITCHES if getattr(self, name)})

    def stored(self) -> dict[str, Any]:
        return asdict(self)


SWITCHES = ("guides", "reasons", "boxes", "client", "loads")


def read_options(query: Mapping[str, str], weeks: int, start: int = 1) -> Options:
    """Read what was chosen; what is not there or makes no sense falls back to the weeks from `start` to the last one.

    A box that is not ticked is not sent, so `chosen` tells "none of them" from a first visit.
    """
    weeks = max(weeks, 1)
    first, last = _place(query.get("first", ""), start, weeks), _place(query.get("last", ""), weeks, weeks)
    options = Options(min(first, last), max(first, last))
    if query.get("chosen"):
        options = replace(options, **{name: query.get(name) == "yes" for name in SWITCHES})
    paper = query.get("paper", "")
    return replace(options, paper=paper) if paper in PAPERS else options


def stored_options(values: Mapping[str, Any], weeks: int) -> Options:
    """Return what a link keeps; weeks that the program no longer has are left out."""
    options = Options(**values)
    last = min(options.last, max(weeks, 1))
    return replace(options, first=min(options.first, last), last=last)


def _place(text: str, otherwise: int, weeks: int) -> int:
    number = int(text) if text.isascii() and text.isdigit() and len(text) < 6 else otherwise
    return min(max(number, 1), weeks)
