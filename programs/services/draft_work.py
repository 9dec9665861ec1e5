"""Work a draft off: claim it, solve, keep the outcome. May be killed at any line, and called twice."""

import logging
import time
from typing import Any

from django.db import DatabaseError, models
from django.utils import timezone

from periodization.draft import Progress, draft_week
from programs.models import DraftRun
from programs.services.draft_ask import ask_from_json
from programs.services.draft_outcome import outcome_of
from programs.services.draft_request import request_of

logger = logging.getLogger(__name__)
State = DraftRun.State
# How often a worker writes down how far it is, and looks whether it should stop.
LOOK_S = 0.5


def draft_work_off(run_id: int) -> bool:
    """Claim the run and bring it to an end; False when it is not waiting (another worker has it, or it is done)."""
    claimed = DraftRun.objects.filter(pk=run_id, state=State.QUEUED).update(
        state=State.RUNNING,
        attempt=models.F("attempt") + 1,
        started_at=timezone.now(),
        alive_at=timezone.now(),
        progress={},
    )
    if not claimed:
        return False
    run = DraftRun.objects.select_related("practice").get(pk=run_id)
    try:
        request = request_of(ask_from_json(run.ask), run.practice)
        watch = _Watch(run)
        state, result = outcome_of(request, draft_week(request, watch.told, watch.should_stop))
        _end(run, state=state, result=result)
    except ValueError as error:
        # The form lets through nothing senseless; what it named can have changed since.
        logger.warning("Draft %s cannot be solved: %s", run_id, error)
        _end(run, state=State.FAILED, fault="senseless", fault_params={"why": str(error)[:300]})
    except Exception:
        _end(run, state=State.FAILED, fault="software")
        raise
    return True


class _Watch:
    """Listens to the solver: writes down its progress, and looks whether the coach wants it to stop."""

    def __init__(self, run: DraftRun) -> None:
        self.mine = DraftRun.objects.filter(pk=run.pk, attempt=run.attempt, state=State.RUNNING)
        self.progress: dict[str, Any] = {}
        self.looked = 0.0
        self.stop = False

    def told(self, progress: Progress) -> None:
        best, bound = progress.best, progress.bound
        gap = (bound - best) / best if best is not None and bound is not None and best > 0 else None
        self.progress = {
            "seconds": progress.seconds,
            "best": best,
            "bound": bound,
            "gap": gap,
            "clashing": progress.clashing,
        }

    def should_stop(self) -> bool:
        if not self.stop and time.monotonic() - self.looked >= LOOK_S:
            self.looked = time.monotonic()
            try:
                self._look()
            except DatabaseError:
                # A database that is away for a moment is no reason to throw the search away.
                logger.warning("No progress could be written", exc_info=True)
        return self.stop

    def _look(self) -> None:
        alive = self.mine.update(alive_at=timezone.now(), progress=self.progress)
        # Not ours any more: it was thought lost and given to another worker, or stopped.
        self.stop = not alive or self.mine.filter(cancel_asked=True).exists()


def _end(run: DraftRun, **fields: Any) -> None:
    """Keep the outcome, unless the run has been given to another worker meanwhile."""
    DraftRun.objects.filter(pk=run.pk, attempt=run.attempt, state=State.RUNNING).update(
        ended_at=timezone.now(), alive_at=timezone.now(), **fields
    )
