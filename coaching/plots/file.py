"""A plot's numbers as a CSV file (RFC 4180): one row a day or week, oldest first, units in the headings."""

import csv
import io

from django.http import HttpResponse
from django.utils.translation import gettext as _

from coaching.plots.plot import Cell, Plot

# A cell that begins like this is run as a formula by some spreadsheets.
FORMULA = ("=", "+", "-", "@", "\t", "\r")


def csv_file(plot: Plot, whose: str) -> HttpResponse:
    """Answer with the plot's table; numbers with a point, days as in ISO 8601, gaps empty."""
    out = io.StringIO()
    rows = csv.writer(out)
    rows.writerow([_("week of") if plot.weekly else _("day"), *(one.heading for one in plot.series)])
    for at, day in enumerate(plot.days):
        rows.writerow([day.isoformat(), *(_cell(one.values[at], one.digits) for one in plot.series)])
    response = HttpResponse(out.getvalue(), content_type="text/csv; charset=utf-8")
    response["Content-Disposition"] = f'attachment; filename="{whose}-{plot.name}.csv"'
    return response


def _cell(value: Cell, digits: int) -> str:
    if value is None:
        return ""
    if isinstance(value, str):
        # No-break spaces are for pages.
        text = value.replace("\u00a0", " ")
        return f"'{text}" if text.startswith(FORMULA) else text
    return repr(round(value, digits))
