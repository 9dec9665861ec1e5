"""What every result carries so that it can be asked why."""

from collections.abc import Mapping
from dataclasses import dataclass, field

Param = str | float | int
# What a flag's sentence can be filled with: a value, or ids that are shown as a list of names.
Filling = Param | tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule's identity. Raise `version` whenever a result could change, so that old rows are rebuilt."""

    id: str
    version: int
    source: str


@dataclass(frozen=True, slots=True)
class Reason:
    """A statement without words: `code` picks the template in `sentences.py`, `params` fill it."""

    code: str
    params: Mapping[str, Param] = field(default_factory=dict)
