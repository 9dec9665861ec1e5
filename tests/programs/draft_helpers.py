"""Small requests for drafts, answered in a moment."""

from dataclasses import replace

from programs.models import DraftRun
from programs.services.draft_ask import Ask, AskedDay, AskedTarget
from programs.services.draft_run import draft_start


def small_ask(**more: object) -> Ask:
    """Two days for biceps and triceps of the little library (tests/programs/factories.py)."""
    ask = Ask(
        status="intermediate",
        days=(AskedDay(0, 45), AskedDay(3, 45)),
        targets={"biceps": AskedTarget(4, 8), "triceps": AskedTarget(4, 8, "focus")},
        seconds=5,
    )
    return replace(ask, **more)  # type: ignore[arg-type]


def start(world, ask: Ask | None = None, **more: object) -> DraftRun:
    fields = {"practice": world.practice, "author": world.coach, "client": None, "name": "Arms", **more}
    return draft_start(ask=ask or small_ask(), **fields)  # type: ignore[arg-type]
