"""What is to be done: anatomy, exercises, programs and dated plans."""

from programs.models.adaptation import Adaptation
from programs.models.anatomy import Head, JointAction, Muscle, MuscleGroup
from programs.models.assignment import Assignment, PlannedSession, PlannedSlot
from programs.models.client_fit import ClientEquipment, ClientLimit
from programs.models.draft import DraftRun
from programs.models.equipment import Equipment
from programs.models.exercise import Exercise, ExerciseLink, HeadCredit, Laterality, LoadKind, RepUnit
from programs.models.fitting import Fitting
from programs.models.grades import GRADE_NAMES, GradeOverride
from programs.models.handout_link import HandoutLink
from programs.models.limit import Limit, Site
from programs.models.program import Program, ProgramRevision
from programs.models.reference import ExerciseReference, Reference
from programs.models.revision import AssignmentRevision, SessionRevision
from programs.models.trial import TrialStep

__all__ = [
    "GRADE_NAMES",
    "Adaptation",
    "Assignment",
    "AssignmentRevision",
    "ClientEquipment",
    "ClientLimit",
    "DraftRun",
    "Equipment",
    "Exercise",
    "ExerciseLink",
    "ExerciseReference",
    "Fitting",
    "GradeOverride",
    "HandoutLink",
    "Head",
    "HeadCredit",
    "JointAction",
    "Laterality",
    "Limit",
    "LoadKind",
    "Muscle",
    "MuscleGroup",
    "PlannedSession",
    "PlannedSlot",
    "Program",
    "ProgramRevision",
    "Reference",
    "RepUnit",
    "SessionRevision",
    "Site",
    "TrialStep",
]
