"""One short text for every rule, version and threshold that a week's row rests on: a change of any makes it stale."""

import hashlib
import json
from dataclasses import asdict
from functools import cache

from django.conf import settings

from accounts.models import Client
from coaching.recompute import strength, urgency
from periodization import (
    compliance,
    deload,
    dose,
    flags,
    progression,
    questions,
    readiness,
    session_load,
    sides,
    targets,
    trend,
)
from periodization.progression.outgrown import DEFAULT as OUTGROWN
from periodization.progression.start import RULE as START

# Raise when this package itself would write other rows from the same log.
SHAPE = 9


@cache
def rules_in_use() -> tuple[tuple[str, int], ...]:
    """Return id and version of every rule behind a week's row."""
    rules = [
        dose.RULE,
        targets.RULE,
        compliance.RULE,
        session_load.RULE,
        readiness.RULE,
        trend.RULE,
        sides.RULE,
        deload.RULE,
        progression.RULE,
        START,
        strength.RULE,
        urgency.RULE,
        *questions.RULES,
        *(flag.rule for flag in flags.RULES),
    ]
    return tuple(sorted((rule.id, rule.version) for rule in rules))


@cache
def _thresholds() -> str:
    progressions = progression.SETTINGS.values()
    asked = (questions.DEFAULT, OUTGROWN, deload.DEFAULT)
    parts = (flags.DEFAULT, readiness.DEFAULT, *asked, trend.DEFAULT_SETTINGS, *progressions)
    return json.dumps([SHAPE, rules_in_use(), [asdict(part) for part in parts]], sort_keys=True)


def fingerprint(client: Client) -> str:
    """Return 16 hexadecimal digits of all rules and thresholds, and of the client's target ranges, zone and
    unit, and of the equation in use.

    The ranges belong to it because a rebuild can only judge by the ranges of today: with them in the print a change of
    range marks the earlier weeks as stale, and they are judged anew instead of differing from their own rebuild.
    """
    user = client.user
    own = json.dumps(
        [
            client.training_status,
            client.priorities,
            client.target_overrides,
            user.time_zone,
            user.load_unit,
            settings.E1RM_EQUATION,
        ],
        sort_keys=True,
    )
    return hashlib.sha256((_thresholds() + own).encode()).hexdigest()[:16]
