"""References as a reader expects them, from CSL-JSON. A small part of that format: what our list uses."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _

MOST_AUTHORS = 6


@dataclass(frozen=True, slots=True)
class Citation:
    """One numbered reference, in the parts that a page sets in different type."""

    number: int
    authors: str
    title: str
    container: str
    place: str  # "2023;23(7):1240–1250"
    label: str  # what the link says
    url: str


def citations(items: Iterable[Mapping[str, Any]]) -> dict[str, Citation]:
    """Number CSL-JSON items from 1 in the order given, each id once; return them by id in that order."""
    found: dict[str, Citation] = {}
    for item in items:
        if item["id"] not in found:
            found[item["id"]] = _citation(item, len(found) + 1)
    return found


def _citation(item: Mapping[str, Any], number: int) -> Citation:
    doi = item.get("DOI", "")
    url = f"https://doi.org/{doi}" if doi else item.get("URL", "")
    return Citation(
        number=number,
        authors=authors(item.get("author", [])),
        title=item["title"].rstrip("."),
        container=item.get("container-title", "") or item.get("publisher", ""),
        place=place(item),
        label=f"doi:{doi}" if doi else url,
        # Own data only, but a reference is still no way to run a script.
        url=url if url.startswith(("https://", "http://")) else "",
    )


def authors(people: Iterable[Mapping[str, str]]) -> str:
    """Write "Maeo S, Wu Y": family names with initials, at most six, then "and others"."""
    names = [_author(person) for person in people]
    known = [name for name in names if name != "and others"]
    if len(known) > MOST_AUTHORS or len(known) < len(names):
        return ", ".join(known[:MOST_AUTHORS]) + " " + _("and others")
    return ", ".join(known)


def _author(person: Mapping[str, str]) -> str:
    if "literal" in person:
        return person["literal"]
    initials = "".join(part[0] for part in person.get("given", "").replace("-", " ").split())
    return f"{person['family']} {initials}".strip()


def place(item: Mapping[str, Any]) -> str:
    """Write year, volume, issue and pages: "2023;23(7):1240–1250"; parts that are missing are left out."""
    dates = item.get("issued", {}).get("date-parts", [[]])
    text = str(dates[0][0]) if dates and dates[0] else ""
    volume = item.get("volume", "") + (f"({item['issue']})" if item.get("issue") else "")
    if volume:
        text += f";{volume}" if text else volume
    if item.get("page"):
        text += ":" + item["page"].replace("-", "–")
    return text
