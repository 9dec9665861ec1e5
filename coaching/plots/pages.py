"""The pages of plots: what each shows, and which plot of which page a file is asked for."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from coaching.plots.ask import Ask
from coaching.plots.plot import Plot
from coaching.plots.sessions import session_plots
from coaching.plots.strength import strength
from coaching.plots.volume import volumes
from coaching.plots.well_being import check_in_plot, mass_plot, pain_plot, pain_sites
from programs.sentences import words_for


@dataclass(frozen=True)
class Sheet:
    """A page's plots by name, and what else it tells."""

    plots: list[Plot]
    more: dict[str, Any] = field(default_factory=dict)


def volume_sheet(ask: Ask) -> Sheet:
    words = words_for(ask.unit)
    found = volumes(ask, words, ask.summaries("volume"))
    return Sheet(found.plots, {"volumes": found})


def strength_sheet(ask: Ask) -> Sheet:
    found = strength(ask, ask.summaries("trends"))
    words = words_for(ask.unit, [*([found.chosen] if found.chosen else []), *found.without])
    return Sheet(found.plots, {"strength": found, "words": words})


def sessions_sheet(ask: Ask) -> Sheet:
    return Sheet(session_plots(ask, ask.summaries("volume", "compliance", "load")))


def well_being_sheet(ask: Ask) -> Sheet:
    rows = ask.summaries("check_ins", "body")
    plots = [check_in_plot(ask, rows), mass_plot(ask, rows), pain_plot(ask, rows)]
    return Sheet(plots, {"sites": pain_sites(ask, rows)})


def own_sheet(ask: Ask) -> Sheet:
    """Everything of a client's own progress on one page."""
    rows = ask.summaries("volume", "trends", "check_ins", "body")
    counted = volumes(ask, words_for(ask.unit), rows)
    strong = strength(ask, rows)
    checks, mass = check_in_plot(ask, rows), mass_plot(ask, rows)
    plots = [*strong.plots, *counted.plots, checks, mass]
    return Sheet(plots, {"volumes": counted, "strength": strong, "checks": checks, "mass": mass})


SHEETS: dict[str, Callable[[Ask], Sheet]] = {
    "volume": volume_sheet,
    "heads": volume_sheet,
    "strength": strength_sheet,
    "sides": strength_sheet,
    "compliance": sessions_sheet,
    "effort": sessions_sheet,
    "load": sessions_sheet,
    "check-ins": well_being_sheet,
    "mass": well_being_sheet,
    "pain": well_being_sheet,
}
# What a client may fetch of their own progress.
OWN = ("volume", "heads", "strength", "sides", "check-ins", "mass")


def plot_named(name: str, ask: Ask) -> Plot | None:
    """Return one plot, or None where there is none of this name or nothing to show in it."""
    sheet = SHEETS.get(name)
    found = sheet(ask).plots if sheet else []
    return next((plot for plot in found if plot.name == name), None)
