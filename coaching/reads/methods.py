"""The methods pages: docs/methods/*.md, which the tests read too, so page and code cannot part."""

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from django.conf import settings
from django.urls import reverse
from django.utils.safestring import SafeString, mark_safe
from django.utils.text import slugify
from markdown_it import MarkdownIt
from markdown_it.token import Token

FOLDER = Path(settings.BASE_DIR) / "docs" / "methods"
INDEX = "README"


@dataclass(frozen=True)
class Method:
    """One page: its address part, its title and its content as HTML."""

    topic: str
    title: str
    html: SafeString


@cache
def methods() -> dict[str, Method]:
    """Return every page by topic, ordered by title; read once a process, since they change only with the code."""
    pages = [_read(path) for path in sorted(FOLDER.glob("*.md"))]
    return {page.topic: page for page in sorted(pages, key=lambda page: page.title)}


def _read(path: Path) -> Method:
    text = path.read_text(encoding="utf-8")
    title = next((line[2:].strip() for line in text.splitlines() if line.startswith("# ")), path.stem)
    return Method(path.stem, title, render(text))


def render(text: str) -> SafeString:
    """Render Markdown without raw HTML and without style attributes, which the content policy would refuse."""
    parser = MarkdownIt("commonmark", {"html": False}).enable("table")
    tokens = parser.parse(text)
    for place, token in enumerate(tokens):
        if token.type == "table_open":
            token.attrSet("class", "ledger")
        elif token.type in ("th_open", "td_open") and token.attrs.pop("style", None):
            token.attrSet("class", "n")
        elif token.type == "heading_open":
            token.attrSet("id", slugify(tokens[place + 1].content))
        elif token.type == "inline":
            _mend_links(token)
    html = parser.renderer.render(tokens, parser.options, {})
    html = html.replace("<table", '<div class="ledger-wrap" tabindex="0"><table').replace("</table>", "</table></div>")
    return mark_safe(html)  # noqa: S308 - our own files, with raw HTML turned off


def _mend_links(token: Token) -> None:
    """Point links between the files to the pages, and take the link off what is not a page."""
    for child in token.children or ():
        if child.type != "link_open":
            continue
        match = re.fullmatch(r"(?:\./)?([\w-]+)\.md(#.*)?", str(child.attrGet("href") or ""))
        if match:
            address = reverse("methods") if match[1] == INDEX else reverse("method", args=[match[1]])
            child.attrSet("href", address + (match[2] or ""))
