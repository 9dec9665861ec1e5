"""What holds for every draft, whatever was asked."""

import random
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.library import read_candidates, read_heads
from periodization.dose import CountedSet, weekly_volume
from periodization.draft import Clash, Draft, Limit, NoAnswer, Request, Stop, Target, TrainingDay, draft_week
from periodization.draft.breaches import breaches, model_seconds
from periodization.draft.facts import gather
from periodization.draft.score import score
from periodization.draft.standing import Standing
from periodization.duration import SlotTime, session_minutes
from periodization.sentences import sentence
from tests.periodization.drafting import EXACT, random_request

QUICK = Stop(gap=0.02, seconds=10)


def request_of(seed, **more):
    rng = random.Random(seed)
    given_more = {
        "limits": tuple(rng.sample([Limit("action", "push"), Limit("action", "bend"), Limit("tag", "overhead")], 2)),
        "avoid": frozenset(rng.sample([f"e{n:02}" for n in range(12)], 3)),
        "equipment": frozenset({"bar", "cable"}),
        "pairs": rng.random() < 0.5,
        "warm_up_minutes": rng.choice((0.0, 5.0)),
        "stop": QUICK,
    }
    return random_request(rng, exercises=12, days=rng.randint(1, 3), groups=3, sets=(2, 4), **{**given_more, **more})


def sets_of(draft):
    return {(day.id, slot.exercise): slot.sets for day in draft.days for slot in day.slots}


@given(st.integers(0, 10**6))
@settings(max_examples=40)
def test_no_limit_is_violated_and_no_minute_exceeded(seed):
    request = request_of(seed)
    draft = draft_week(request)
    assert isinstance(draft, Draft)
    by_id = {one.id: one for one in request.candidates}
    for asked, day in zip(request.days, draft.days, strict=True):
        chosen = [by_id[slot.exercise] for slot in day.slots]
        assert not {one.id for one in chosen} & request.avoid
        assert {one.equipment for one in chosen} <= request.equipment
        for limit in request.limits:
            assert not any(limit.name in (one.actions if limit.kind == "action" else one.tags) for one in chosen)
        times = [
            SlotTime(
                s.sets, sum(s.reps) / 2, e.rep_seconds, s.rest_seconds, s.pair or None, e.one_sided, e.setup_seconds
            )
            for s, e in zip(day.slots, chosen, strict=True)
        ]
        assert day.minutes == pytest.approx(session_minutes(times, request.warm_up_minutes))
        assert day.minutes <= asked.minutes + 1e-9
        assert len(day.slots) <= request.slots_per_day
        assert all(2 <= slot.sets <= 4 for slot in day.slots)


@given(st.integers(0, 10**6))
@settings(max_examples=30)
def test_ceilings_and_caps_hold_as_the_tally_counts(seed):
    request = request_of(seed)
    draft = draft_week(request)
    groups = {head.id: head.group for head in request.heads if head.group}
    credits = {one.id: one.credits for one in request.candidates}

    def count(days):
        sets = [CountedSet(s.exercise, s.rir[1]) for day in days for s in day.slots for _ in range(s.sets)]
        return weekly_volume(sets, credits, {}, groups).by_group

    assert all(amount <= request.session_cap for day in draft.days for amount in count([day]).values())
    for target in request.targets:
        if target.ceiling_must:
            assert count(draft.days).get(target.group, 0) <= target.ceiling


@given(st.integers(0, 10**6))
@settings(max_examples=30)
def test_unpaired_sessions_are_never_longer_than_the_model_counts_in_any_order(seed):
    rng = random.Random(seed)
    request = random_request(rng, exercises=8, days=1, groups=2)
    facts = gather(request)
    chosen = rng.sample(request.candidates, rng.randint(1, 8))
    sets = {(request.days[0].id, one.id): rng.randint(1, 5) for one in chosen}
    times = [
        SlotTime(
            sets[request.days[0].id, one.id],
            sum(facts.exercises[one.id].prescription.reps) / 2,
            one.rep_seconds,
            one.rest_seconds,
            None,
            one.one_sided,
            one.setup_seconds,
        )
        for one in chosen
    ]
    assert session_minutes(times, request.warm_up_minutes) * 60 <= model_seconds(facts, sets)[request.days[0].id] + 1e-6


@given(st.integers(0, 10**6))
@settings(max_examples=15)
def test_next_best_is_a_possible_week_at_the_stated_cost(seed):
    request = request_of(seed, pairs=False)
    facts, draft = gather(request), draft_week(request)
    week = sets_of(draft)
    for day in draft.days:
        for slot in day.slots:
            if slot.next_best is None:
                continue
            changed = {key: amount for key, amount in week.items() if key != (day.id, slot.exercise)}
            changed[day.id, slot.next_best.exercise] = slot.next_best.sets
            assert not breaches(facts, changed)
            assert draft.points - score(facts, changed) == pytest.approx(slot.next_best.points, abs=1e-5)


@given(st.integers(0, 10**6))
@settings(max_examples=10)
def test_every_slot_has_a_need_in_words(seed):
    for day in draft_week(request_of(seed)).days:
        for slot in day.slots:
            assert slot.needs
            assert all(sentence(need.reason) for need in slot.needs)


@given(st.integers(0, 10**6))
@settings(max_examples=10)
def test_pairs_share_no_group_and_stand_together(seed):
    request = request_of(seed, pairs=True)
    facts = gather(request)
    for day in draft_week(request).days:
        letters = [slot.pair for slot in day.slots if slot.pair]
        assert all(letters.count(letter) == 2 for letter in letters)
        for first, second in zip(day.slots, day.slots[1:], strict=False):
            if first.pair and first.pair == second.pair:
                a, b = (facts.exercises[slot.exercise].credit for slot in (first, second))
                assert not {g for g, c in a.items() if c >= 0.5} & {g for g, c in b.items() if c >= 0.5}
        assert letters == sorted(letters)


def test_equal_seeds_give_equal_drafts():
    request = request_of(4)
    first, second = draft_week(request), draft_week(request)
    assert (first.days, first.points, first.bound) == (second.days, second.points, second.bound)


def test_pairs_never_make_a_week_worse():
    for seed in range(8):
        request = replace(request_of(seed, pairs=False), days=(TrainingDay("only", 0, 15),), stop=EXACT)
        alone, paired = draft_week(request), draft_week(replace(request, pairs=True))
        assert paired.points >= alone.points - 1e-6


def test_pairs_make_room_for_more():
    request = Request(
        read_heads(),
        read_candidates(),
        (TrainingDay("only", 0, 30),),
        tuple(Target(group, 6, 10, floor_must=False) for group in ("chest", "lats", "quadriceps", "hamstrings")),
        stop=QUICK,
    )
    alone, paired = draft_week(request), draft_week(replace(request, pairs=True))
    assert paired.points > 1.1 * alone.points
    # What the pairs win is used.
    assert paired.days[0].minutes >= 0.93 * 30
    assert sum(bool(slot.pair) for slot in paired.days[0].slots) >= 4
    assert paired.days[0].minutes <= 30


def test_progress_is_told_and_never_gets_worse():
    told = []
    draft = draft_week(random_request(random.Random(3), exercises=25, days=3, groups=5, stop=QUICK), tell=told.append)
    best = [progress.best for progress in told if progress.best is not None]
    assert best
    assert best == sorted(best)
    assert all(progress.bound >= draft.points - 1e-6 for progress in told)
    assert [p.seconds for p in told] == sorted(p.seconds for p in told)


def test_cancelled_at_once_gives_no_answer():
    result = draft_week(request_of(1), cancelled=lambda: True)
    assert isinstance(result, NoAnswer)
    assert result.ended == "cancelled"


def test_cancelled_on_the_way_keeps_the_week_found_so_far():
    found = []
    request = random_request(
        random.Random(3), exercises=40, days=4, groups=8, stop=Stop(gap=0.0, seconds=60), slots_per_day=8
    )
    draft = draft_week(
        request, tell=lambda p: found.append(p.best), cancelled=lambda: any(best is not None for best in found)
    )
    assert isinstance(draft, Draft)
    assert draft.ended == "cancelled"
    assert draft.bound >= draft.points


def test_clash_can_be_cancelled():
    request = request_of(2, include=frozenset({"e00"}), avoid=frozenset({"e00"}))
    assert isinstance(draft_week(request), Clash)
    asked = []
    result = draft_week(request, cancelled=lambda: asked.append(1) or len(asked) > 3)
    assert isinstance(result, NoAnswer)


@given(st.integers(0, 10**6))
@settings(max_examples=40)
def test_one_more_slot_is_worth_what_the_whole_week_is_worth_with_it(seed):
    rng = random.Random(seed)
    request = random_request(rng, exercises=8, days=rng.randint(1, 4), groups=3)
    facts = gather(request)
    places = [(day.id, one.id) for day in request.days for one in request.candidates]
    *week, added = rng.sample(places, rng.randint(1, 8))
    sets = {place: rng.randint(1, 4) for place in week}
    assert Standing(facts, sets).with_slot(*added, 3) == pytest.approx(score(facts, {**sets, added: 3}))
