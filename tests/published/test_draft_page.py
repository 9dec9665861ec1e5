"""The numbers on docs/methods/draft.md are the ones that the code uses."""

from dataclasses import fields

import pytest

from periodization.draft import (
    DEFAULT_PRESCRIPTIONS,
    Candidate,
    Grades,
    Head,
    Request,
    Target,
    TrainingDay,
    Weights,
)
from periodization.draft.facts import gather
from periodization.draft.score import score, terms
from tests.published.tables import table


def test_priority_factors_are_those_of_the_page():
    assert {row["priority"]: float(row["factor"]) for row in table("draft", "draft-1")} == Weights().priority


def test_weights_are_those_of_the_page():
    page = {row["weight"]: float(row["default"]) for row in table("draft", "draft-2")}
    assert page == {f.name: getattr(Weights(), f.name) for f in fields(Weights) if f.name not in ("grades", "priority")}


@pytest.mark.parametrize("row", table("draft", "draft-3"), ids=lambda row: row["status"])
def test_prescriptions_are_those_of_the_page(row):
    def written(one):
        return "{}-{} @ {}-{}".format(*one.reps, *one.rir)

    known = DEFAULT_PRESCRIPTIONS[row["status"]]
    page = (row["several joints"], row["one joint"], row["load cannot be raised"])
    assert (written(known.compound), written(known.single), written(known.light)) == page


@pytest.mark.parametrize("row", table("draft", "draft-4"), ids=lambda row: f"DERIVED-{row['sets']}-{row['days']}")
def test_points_of_a_week(row):
    sets, days = int(row["sets"]), int(row["days"])
    request = Request(
        (Head("head", "group", frozenset({"bend"})),),
        (Candidate("curl", {"head": 1}, Grades(3, 3, 3, 3), frozenset({"bend"}), "cable", False, setup_seconds=60),),
        tuple(TrainingDay(f"d{n}", 3 * n, 60) for n in range(days)),
        (Target("group", 4, 8),),
    )
    week = {(f"d{n}", "curl"): sets // days for n in range(days)}
    facts = gather(request)
    assert score(facts, week) == pytest.approx(float(row["points"]))
    parts = [float(chunk.split()[0]) * sign for chunk, sign in _signed(row["made of"])]
    assert sum(parts) == pytest.approx(float(row["points"]))
    assert len(parts) == len({kind for kind, _ in terms(facts, week)})


def _signed(text):
    """Return the chunks of `9 floor + 2 head - 3 grade` with their signs."""
    words, sign, chunk, found = text.split(), 1, [], []
    for word in words:
        if word in "+-":
            found.append((" ".join(chunk), sign))
            sign, chunk = (1 if word == "+" else -1), []
        else:
            chunk.append(word)
    return [*found, (" ".join(chunk), sign)]
