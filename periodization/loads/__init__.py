"""The loads that equipment can make."""

from periodization.loads.body import effective_load, setting_for
from periodization.loads.ladders import (
    Assisted,
    BodyWeightPlus,
    FixedSteps,
    Listed,
    LoadLadder,
    NoLoad,
    PlatePairs,
    Stack,
)
from periodization.loads.parse import ladder_from_dict
from periodization.loads.settings import settings_of
from periodization.loads.steps import at_or_above, at_or_below, next_down, next_up, plates_for

__all__ = [
    "Assisted",
    "BodyWeightPlus",
    "FixedSteps",
    "Listed",
    "LoadLadder",
    "NoLoad",
    "PlatePairs",
    "Stack",
    "at_or_above",
    "at_or_below",
    "effective_load",
    "ladder_from_dict",
    "next_down",
    "next_up",
    "plates_for",
    "setting_for",
    "settings_of",
]
