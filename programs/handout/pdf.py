"""A hand-out as a PDF, by WeasyPrint. That needs Pango from the system, so it is optional at run time."""

from functools import cache
from pathlib import Path

from django.conf import settings

from programs.handout.options import PAPERS

SHEETS = ("base/tokens.css", "base/type.css", "programs/handout.css", "programs/handout_page.css")


class NoPdf(Exception):
    """WeasyPrint, or the system library it draws text with, is not installed here."""


@cache
def pdf_is_possible() -> bool:
    """Say whether a PDF can be made on this machine."""
    try:
        import weasyprint  # noqa: F401
    except (ImportError, OSError):  # OSError: the Python package is there, Pango is not
        return False
    return True


def make_pdf(html: str, paper: str) -> bytes:
    """Return the page as a PDF of the paper size "a4" or "letter"; NoPdf where it cannot be made.

    Nothing is fetched: styles and fonts come from the static folder, and any other address is refused.
    """
    if not pdf_is_possible():
        raise NoPdf
    from weasyprint import CSS, HTML
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher

    folder = Path(settings.BASE_DIR) / "static"

    class OwnFilesOnly(URLFetcher):
        def fetch(self, url: str, headers: dict[str, str] | None = None):
            if not url.startswith(f"{folder.as_uri()}/") or ".." in url:
                raise ValueError(f"not one of our own files: {url}")
            return super().fetch(url, headers)

    fonts, fetcher = FontConfiguration(), OwnFilesOnly()
    known = {"url_fetcher": fetcher, "font_config": fonts}
    sheets = [CSS(filename=folder / name, **known) for name in SHEETS]
    size = paper if paper in PAPERS else PAPERS[0]
    sheets.append(CSS(string=f"@page {{ size: {size} }}", **known))
    page = HTML(string=html, base_url=f"{folder.as_uri()}/", url_fetcher=fetcher)
    return page.write_pdf(stylesheets=sheets, font_config=fonts)
