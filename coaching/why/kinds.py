"""Every kind of number that can be asked why, and how its address is read."""

from collections.abc import Callable
from dataclasses import dataclass

from django.http import Http404

from coaching.why.answer import Answer
from coaching.why.body import mass, pain
from coaching.why.check_in import check_in
from coaching.why.flag import flag
from coaching.why.kept import kept
from coaching.why.links import Reader
from coaching.why.load import load
from coaching.why.prompt import prompt
from coaching.why.ranges import ranges
from coaching.why.strength import strength
from coaching.why.target import target
from coaching.why.trend import trend
from coaching.why.urgency import urgency
from coaching.why.volume import group, head, muscle, tally


@dataclass(frozen=True)
class Kind:
    """`sizes`: how many parts its address may have. `own`: a client may ask it of themselves; what the board says to
    the coach about a client is not theirs to answer for."""

    answer: Callable[..., Answer]
    sizes: tuple[int, ...]
    own: bool = True


KINDS: dict[str, Kind] = {
    "kept": Kind(kept, (1,)),  # week
    "volume": Kind(group, (2,)),  # week, group
    "muscle": Kind(muscle, (2,)),  # week, muscle
    "head": Kind(head, (2,)),  # week, head
    "tally": Kind(tally, (1,)),  # week
    "ranges": Kind(ranges, (1,)),  # week
    "load": Kind(load, (1,)),  # week
    "trend": Kind(trend, (2,)),  # week, exercise
    "strength": Kind(strength, (2,)),  # session, exercise
    "check-in": Kind(check_in, (1,)),  # day
    "mass": Kind(mass, (1,)),  # day
    "pain": Kind(pain, (2, 4)),  # first and last week, site and side
    "target": Kind(target, (1,)),  # slot
    "urgency": Kind(urgency, (1,), own=False),  # week
    "flag": Kind(flag, (1,), own=False),  # flag
    "prompt": Kind(prompt, (1,), own=False),  # prompt
}


def answer_to(reader: Reader, kind: str, path: str) -> Answer:
    """Return the answer, or 404 for what this reader cannot ask."""
    found = KINDS.get(kind)
    parts = path.strip("/").split("/")
    if found is None or len(parts) not in found.sizes or not (reader.at_desk or found.own):
        raise Http404
    return found.answer(reader, *parts)
