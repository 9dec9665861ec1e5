"""A week drafted by an integer program that explains itself (docs/methods/draft.md)."""

from periodization.draft.demands import Demand
from periodization.draft.highs import Progress
from periodization.draft.prescription import DEFAULT_PRESCRIPTIONS, Prescription, Prescriptions
from periodization.draft.request import (
    Candidate,
    ExerciseCount,
    Grades,
    Head,
    Limit,
    Request,
    Stop,
    Target,
    TrainingDay,
)
from periodization.draft.result import Clash, Draft, DraftDay, DraftSlot, Need, NextBest, NoAnswer, Relaxation
from periodization.draft.run import RULE, draft_week
from periodization.draft.weights import GradeWeights, Weights

__all__ = [
    "DEFAULT_PRESCRIPTIONS",
    "RULE",
    "Candidate",
    "Clash",
    "Demand",
    "Draft",
    "DraftDay",
    "DraftSlot",
    "ExerciseCount",
    "GradeWeights",
    "Grades",
    "Head",
    "Limit",
    "Need",
    "NextBest",
    "NoAnswer",
    "Prescription",
    "Prescriptions",
    "Progress",
    "Relaxation",
    "Request",
    "Stop",
    "Target",
    "TrainingDay",
    "Weights",
    "draft_week",
]
