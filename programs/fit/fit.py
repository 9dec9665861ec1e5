"""One client's copy: every proposal with the coach's choices, and the document that comes of it."""

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass

from programs.document import Document
from programs.document.adapt import adapt
from programs.fit.dose import careful_proposals, side_proposals, start_proposals, status_proposals
from programs.fit.match import Pool
from programs.fit.model import Choice, ClientFacts, Proposal
from programs.fit.swaps import swap_proposals
from programs.fit.time import time_proposals
from programs.services.adaptations import Adapted

STEPS = ("swap", "side", "status", "time", "careful", "start")


@dataclass(frozen=True, slots=True)
class Fitted:
    """`written` is the program as it stands, `document` as the client would get it."""

    proposals: tuple[Proposal, ...]
    document: Document
    written: Document

    @property
    def usual(self) -> Document:
        """The document without what holds only once: a careful first session says nothing of the weeks."""
        lasting = [one.change for one in self.proposals if one.accepted and one.change.kind not in ("careful", "start")]
        return adapt(self.written, lasting)

    def adapted(self) -> list[Adapted]:
        """Return what is recorded with the assignment: the accepted proposals."""
        return [Adapted(one.change, one.reason, dict(one.params), one.edited) for one in self.proposals if one.accepted]


def fit(
    document: Document,
    client: ClientFacts,
    pool: Pool,
    *,
    written_for: str,
    formula: str = "epley",
    choices: Mapping[str, Choice] | None = None,
    only: Collection[str] = STEPS,
) -> Fitted:
    """Return every difference for one client, of the steps in `only`. Later proposals see what the earlier ones, as
    chosen, make of the program: what is swapped first is what is then dosed, timed and loaded."""
    said = choices or {}
    steps: dict[str, Callable[[Document], list[Proposal]]] = {
        "swap": lambda now: swap_proposals(now, client, pool, said),
        "side": lambda now: side_proposals(now, client, pool, said),
        "status": lambda now: status_proposals(now, client, written_for, said),
        "time": lambda now: time_proposals(now, client, pool.exercises, said),
        "careful": lambda now: careful_proposals(now, client, said),
        "start": lambda now: start_proposals(now, client, pool, formula, said),
    }
    proposals: list[Proposal] = []
    now = document
    for name in STEPS:
        found = steps[name](now) if name in only else []
        proposals += found
        # Step by step comes to the same as all at once, which is what is recorded: a test holds the two together.
        now = adapt(now, [one.change for one in found if one.accepted])
    return Fitted(tuple(proposals), now, document)
