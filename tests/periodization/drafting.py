"""Invented requests for drafts, small and large, and the weeks of a small one, every one of them."""

import random
from collections.abc import Iterator
from itertools import product

from periodization.draft import (
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
from periodization.draft.validate import MOST_SETS

ACTIONS = ("push", "pull", "bend", "straighten")
PIECES = ("bar", "cable", "bell")
EXACT = Stop(gap=0.0, seconds=60)


def random_heads(rng: random.Random, groups: int) -> tuple[Head, ...]:
    """Return one to three heads a group, and one that no target is set for."""
    heads = [
        Head(f"g{g}-h{h}", f"g{g}", frozenset(rng.sample(ACTIONS, rng.randint(1, 2))))
        for g in range(groups)
        for h in range(rng.randint(1, 3))
    ]
    return (*heads, Head("other", None, frozenset(ACTIONS)))


def random_candidate(rng: random.Random, number: int, heads: tuple[Head, ...]) -> Candidate:
    trained = rng.sample(heads, min(len(heads), rng.randint(1, 4)))
    credits = {head.id: rng.choice((0.25, 0.5, 0.5, 0.75, 1, 1)) for head in trained}
    credits[trained[0].id] = 1
    return Candidate(
        id=f"e{number:02}",
        credits=credits,
        grades=Grades(*(rng.randint(1, 5) for _ in range(4))),
        actions=frozenset(rng.sample(ACTIONS, rng.randint(1, 2))),
        equipment=rng.choice(PIECES),
        compound=rng.random() < 0.4,
        one_sided=rng.random() < 0.2,
        long_heads=frozenset(head.id for head in trained if rng.random() < 0.3),
        setup_seconds=rng.choice((10, 45, 60, 120)),
        rest_seconds=rng.choice((45, 60, 90, 120, 180)),
        rep_seconds=rng.choice((3, 4, 5)),
        tags=frozenset({"overhead"} if rng.random() < 0.2 else set()),
    )


def random_request(rng: random.Random, *, exercises: int, days: int, groups: int, **more: object) -> Request:
    """Return a request whose floors are wishes (so that a week exists), unless `more` says otherwise."""
    heads = random_heads(rng, groups)
    candidates = tuple(random_candidate(rng, number, heads) for number in range(exercises))
    targets = []
    for g in range(groups):
        floor = rng.choice((2, 3, 4, 6))
        priority = rng.choice(("incidental", "maintain", "normal", "focus"))
        targets.append(
            Target(
                f"g{g}",
                floor,
                floor + rng.choice((1, 2, 4)),
                priority,
                floor_must=False,
                ceiling_must=rng.random() < 0.7,
            )
        )
    weekdays = sorted(rng.sample(range(7), days))
    given: dict[str, object] = {
        "days": tuple(TrainingDay(f"d{w}", w, rng.choice((8, 12, 20, 35))) for w in weekdays),
        "session_cap": rng.choice((3.0, 5.0, 8.0)),
        "slots_per_day": rng.randint(2, 6),
        "warm_up_minutes": 0.0,
        "stop": EXACT,
    }
    return Request(heads, candidates, targets=tuple(targets), **{**given, **more})  # type: ignore[arg-type]


def demanding_request(rng: random.Random, **size: object) -> Request:
    """Return a request with demands of every kind, which often clash."""
    easy = random_request(rng, **size)  # type: ignore[arg-type]
    targets = tuple(
        Target(
            t.group,
            t.floor,
            t.ceiling,
            t.priority,
            None,
            rng.random() < 0.4,
            True,
            rng.random() < 0.1,
            rng.random() < 0.1,
        )
        for t in easy.targets
    )
    names = [one.id for one in easy.candidates]
    counted = rng.choice(easy.targets).group
    low = rng.choice((0, 0, 0, 1))
    return Request(
        easy.heads,
        easy.candidates,
        easy.days,
        targets,
        equipment=frozenset(rng.sample(PIECES, 2)) if rng.random() < 0.5 else None,
        include=frozenset(rng.sample(names, 1)) if rng.random() < 0.4 else frozenset(),
        avoid=frozenset(rng.sample(names, 1)) if rng.random() < 0.4 else frozenset(),
        limits=tuple(rng.sample([Limit("action", "push"), Limit("tag", "overhead")], rng.randint(0, 2))),
        counts=(ExerciseCount(counted, easy.days[0].id, low, low + rng.randint(0, 1)),),
        sets=easy.sets,
        session_cap=easy.session_cap,
        slots_per_day=easy.slots_per_day,
        warm_up_minutes=easy.warm_up_minutes,
        spacing_must=rng.random() < 0.1,
        stop=EXACT,
    )


def every_week(request: Request, most: int | None = None) -> Iterator[dict[tuple[str, str], int]]:
    """Yield every week there is with up to `most` sets of an exercise (None: the most that a request may ask for)."""
    places = [(day.id, one.id) for day in request.days for one in request.candidates]
    amounts = (0, *range(request.sets[0], (most or MOST_SETS) + 1))
    for chosen in product(amounts, repeat=len(places)):
        yield {place: amount for place, amount in zip(places, chosen, strict=True) if amount}
