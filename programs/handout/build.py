"""Put a hand-out together, in a number of queries that does not grow with the program."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from accounts.models import Practice
from programs.handout.guides import Guide, load_facts, make_guides
from programs.handout.options import Options
from programs.handout.paper import PaperBlock, lay_out
from programs.handout.source import NumberedWeek, Source
from programs.services.library_references import Citation

# More rows than this are a book, and a minute of the server's time: choose fewer weeks.
MOST_LINES = 600


@dataclass(frozen=True, slots=True)
class Handout:
    title: str
    weeks: Sequence[NumberedWeek]  # all there are, to choose from
    blocks: Sequence[PaperBlock]
    guides: Sequence[Guide]
    citations: Sequence[Citation]
    lines: int
    paired: bool
    tempos: bool
    client: str = ""

    @property
    def too_long(self) -> bool:
        return self.lines > MOST_LINES


def build_handout(source: Source, options: Options, practice: Practice, client: str = "") -> Handout:
    """Lay `source` out. Not checked here: that the reader may see it. Over MOST_LINES only the weeks to choose from
    are returned, without content."""
    if not options.loads:
        source = replace(source, starts={})
    weeks = source.weeks()
    chosen = [one for one in weeks if options.first <= one.place <= options.last]
    order = list(dict.fromkeys(slot.exercise for one in chosen for day in one.week.days for slot in day.slots))
    facts = load_facts(order)
    guides, sources = make_guides(order, facts, practice, options.reasons) if options.guides else ([], [])
    numbers = {pk: n for n, pk in enumerate((pk for pk in order if pk in facts), 1)} if options.guides else {}
    blocks = lay_out(source, chosen, facts, numbers, options.boxes)
    days = [day for block in blocks for week in block.weeks for day in week.days]
    lines = sum(len(day.lines) for day in days)
    too_long = lines > MOST_LINES
    return Handout(
        title=source.title,
        weeks=weeks,
        blocks=[] if too_long else blocks,
        guides=[] if too_long else guides,
        citations=[] if too_long else sources,
        lines=lines,
        paired=any(line.label for day in days for line in day.lines),
        tempos=any(line.tempo for day in days for line in day.lines),
        client=client if options.client else "",
    )
