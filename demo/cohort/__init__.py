"""Simulated clients whose true state is known. docs/methods/cohort.md names the source of every figure."""

from demo.cohort.draw import MIX, draw_kind, draw_profile
from demo.cohort.facts import client_history, exposures_of
from demo.cohort.plan import CohortSession, CohortSlot
from demo.cohort.profile import Ache, Kind, Profile, Stall, Strain
from demo.cohort.records import (
    DayTruth,
    Episode,
    LoggedSession,
    LoggedSet,
    LoggedSlot,
    SimulatedHistory,
)
from demo.cohort.simulate import Coach, simulate_client, usual_week
from demo.cohort.standard_plan import standard_plan
from demo.cohort.truth import episodes

__all__ = [
    "MIX",
    "Ache",
    "Coach",
    "CohortSession",
    "CohortSlot",
    "DayTruth",
    "Episode",
    "Kind",
    "LoggedSession",
    "LoggedSet",
    "LoggedSlot",
    "Profile",
    "SimulatedHistory",
    "Stall",
    "Strain",
    "client_history",
    "draw_kind",
    "draw_profile",
    "episodes",
    "exposures_of",
    "simulate_client",
    "standard_plan",
    "usual_week",
]
