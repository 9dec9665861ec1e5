"""What has days is judged for the days of the copy, and not for today (docs/methods/fitting.md)."""

import datetime as dt

import pytest
from django.urls import reverse

from coaching.fitting.facts import load_facts
from coaching.models import FlagRow, StrengthPoint
from logbook.models import SetLog
from programs.models import Adaptation, Assignment, ClientEquipment, ClientLimit, PlannedSlot
from programs.services.assignment_make import program_assign
from programs.services.fit_since import open_rows, with_closed
from programs.services.fitting import fitting_begin
from programs.services.program_write import program_create
from tests.coaching.fitting_acts import make, planned
from tests.programs.factories import document, slot
from tests.programs.revision_fixture import begin, log_set

BACKEND = "allauth.account.auth_backends.AuthenticationBackend"


@pytest.fixture
def coach(client, world):
    client.force_login(world.coach, backend=BACKEND)
    world.client.training_status = "intermediate"
    world.client.save()
    return client


@pytest.fixture
def today(world):
    return world.client.user.today()


@pytest.fixture
def program(world, library):
    bench, curl = (library.exercise(slug).pk for slug in ("barbell-bench-press", "barbell-curl"))
    return program_create(
        practice=world.practice, author=world.coach, name="Four weeks",
        document=document([slot("s1", bench)], [slot("s2", curl)], weeks=4),
    )  # fmt: skip


def assigned(world, program, starts_on):
    days = [starts_on.weekday(), (starts_on.weekday() + 3) % 7]
    (made,) = program_assign(
        program=program, clients=[world.client], starts_on=starts_on, weekdays=days, assigned_by=world.coach
    )  # fmt: skip
    return made


def limit(world, exercise, since, until=None):
    return ClientLimit.objects.create(
        client=world.client, exercise=exercise, since=since, until=until, told_by=world.coach
    )


def weeks(day, count):
    return day + dt.timedelta(weeks=count)


def proposed(coach, plan, **query):
    page = coach.get(reverse("fit-again", args=[plan.pk], query=query or None))
    return {one.difference.proposal.exercise for one, _line in page.context["proposed"]}


@pytest.mark.parametrize(
    ("since", "until", "closes"),
    [(-1, 1, False), (-1, 3, True), (-1, None, True), (3, None, True), (3, 4, True)],
    ids=["over before it", "over within it", "without end", "begins within it", "lies within it"],
)
def test_a_limit_counts_when_it_holds_on_the_days_of_the_copy(
    coach, world, program, library, today, since, until, closes
):
    bench, starts_on = library.exercise("barbell-bench-press"), weeks(today, 2)
    limit(world, bench, weeks(today, since), until and weeks(today, until))
    fitting = fitting_begin(
        program=program, clients=[world.client], starts_on=starts_on, end_running=False, author=world.coach,
        weekdays=[starts_on.weekday(), (starts_on.weekday() + 3) % 7],
    )  # fmt: skip
    make(coach, fitting)
    assert ("barbell-bench-press" not in planned(world.client)) == closes


@pytest.mark.parametrize(("until", "closes"), [(1, False), (3, True)])
def test_fitting_again_judges_a_copy_that_begins_later_by_its_own_days(
    coach, world, program, library, today, until, closes
):
    plan, bench = assigned(world, program, weeks(today, 2)), library.exercise("barbell-bench-press")
    limit(world, bench, today, weeks(today, until))
    assert (bench.pk in proposed(coach, plan)) == closes


def test_how_old_an_estimate_is_is_counted_to_the_first_day(world, program, library, today):
    bench = library.exercise("barbell-bench-press")
    session = begin(assigned(world, program, weeks(today, -1)).sessions.order_by("date").first(), finished=True)
    StrengthPoint.objects.create(
        client=world.client, exercise=bench, session=session, date=today - dt.timedelta(days=7), e1rm_kg=100.0,
        confidence=0.9, inputs={},
    )  # fmt: skip
    now, later = (load_facts([world.client], day)[world.client.pk] for day in (today, weeks(today, 6)))
    assert (now.e1rm[bench.pk], later.e1rm[bench.pk]) == ((100.0, 7), (100.0, 49))
    # Half a year before that day it says too little.
    assert load_facts([world.client], weeks(today, 26))[world.client.pk].e1rm == {}
    # A day that is over changes nothing: it is known today.
    assert load_facts([world.client], weeks(today, -3))[world.client.pk].e1rm[bench.pk] == (100.0, 7)


def test_what_was_done_lately_is_long_ago_for_a_copy_that_begins_late(world, program, today):
    plan = assigned(world, program, weeks(today, -1))
    session = plan.sessions.order_by("date").first()
    log_set(begin(session, finished=True), session.slots.first())
    done = SetLog.objects.get()
    now, later = (load_facts([world.client], day)[world.client.pk].done for day in (today, weeks(today, 5)))
    assert later[done.exercise_id] == now[done.exercise_id] + 35


def test_pain_has_no_last_day_and_is_met_however_late_the_copy_begins(world, library, today):
    bench = library.exercise("barbell-bench-press")
    FlagRow.objects.create(
        id="00000000-0000-4000-8000-000000000001", client=world.client, week=today - dt.timedelta(days=today.weekday()),
        rule_id="pain.report", rule_version=2, severity="stop", subject_kind="site", subject="shoulder",
        opened_on=today, code="pain_over", params={"score": 7, "site": "shoulder", "exercises": [str(bench.pk)]},
        clears_code="x", clears_params={}, inputs={},
    )  # fmt: skip
    assert load_facts([world.client], weeks(today, 10))[world.client.pk].pain == {bench.pk: (7, "shoulder")}


@pytest.mark.parametrize(
    ("since", "until", "closes"),
    [(0, 6, False), (0, 8, True), (12, None, True), (15, None, False)],
    ids=["over before them", "over within them", "begins within them", "begins after them"],
)
def test_some_days_are_judged_by_the_limits_of_those_days(coach, world, program, library, today, since, until, closes):
    plan, bench = assigned(world, program, today), library.exercise("barbell-bench-press")
    day = dt.timedelta(days=1)
    limit(world, bench, today + since * day, until and today + until * day)
    assert (bench.pk in proposed(coach, plan, first=today + 7 * day, last=today + 13 * day)) == closes


def test_what_is_done_for_some_days_may_use_what_a_limit_closes_only_before(coach, world, program, library, today):
    plan, day = assigned(world, program, today), dt.timedelta(days=1)
    ClientEquipment.objects.create(client=world.client, equipment=library.equipment("barbell"), told_by=world.coach)
    first, last = today + 7 * day, today + 13 * day
    dumbbell = library.equipment("dumbbell").pk
    query = {"first": first, "last": last, "gear": dumbbell}
    page = coach.get(reverse("fit-again", args=[plan.pk], query=query))
    swap = next(one for one, _line in page.context["proposed"] if one.difference.proposal.id.startswith("swap"))
    to = swap.difference.proposal.change.to
    row = ClientLimit.objects.create(
        client=world.client, exercise_id=to, since=today, until=today + 6 * day, told_by=world.coach
    )
    sent = {"seen": page.context["desk"].seen, "write": "yes"}
    page = coach.get(reverse("fit-again", args=[plan.pk], query=query))
    sent["seen"] = page.context["desk"].seen
    sent["shown"] = [one.difference.proposal.id for one, _line in page.context["proposed"]]
    for one, line in page.context["proposed"]:
        name = one.difference.proposal.id
        sent |= {f"accept-{name}": "yes"}
        sent |= {f"to-{name}": one.difference.proposal.change.to or 0} if line.to else {}
        sent |= {f"number-{name}": one.difference.proposal.number} if line.number else {}
    assert coach.post(reverse("fit-again", args=[plan.pk], query=query), sent).status_code == 302
    used = PlannedSlot.objects.filter(session__assignment=plan, exercise=to).values_list("session__date", flat=True)
    assert used
    assert all(first <= one <= last for one in used)
    # It stands when the whole plan is fitted: on its days nothing is closed.
    kept = set(Adaptation.objects.filter(undone_at=None).values_list("pk", flat=True))
    whole = coach.get(reverse("fit-again", args=[plan.pk])).context["page"]
    assert not {one.line.row.pk for one in whole.gone} & kept
    # With the limit a week longer it has to go.
    row.until = last
    row.save()
    longer = coach.get(reverse("fit-again", args=[plan.pk])).context["page"]
    assert {one.line.row.to_exercise_id for one in longer.gone if one.must} == {to}


def test_a_limit_that_begins_later_closes_no_session_before_it(world, program, library, today):
    assigned(world, program, today)
    limit(world, library.exercise("barbell-bench-press"), weeks(today, 2))
    closed = with_closed(open_rows(today), today).filter(closed=True).values_list("session__date", flat=True)
    assert closed
    assert min(closed) >= weeks(today, 2)
    assert Assignment.objects.count() == 1
