"""One page fits a program to many: proposals, choices, and what is assigned in the end."""

import datetime as dt

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from coaching.models import FlagRow
from programs.models import Adaptation, Assignment, ClientEquipment, Fitting
from programs.services.adaptation_undo import adaptation_undo
from programs.services.fitting import MOST_CLIENTS
from programs.services.program_write import program_create
from tests.coaching.fitting_acts import MONDAY, begin, choose, give, make, page, planned, whole_body
from tests.conftest import make_client
from tests.programs.factories import document, slot

BACKEND = "allauth.account.auth_backends.AuthenticationBackend"


@pytest.fixture
def coach(client, world):
    client.force_login(world.coach, backend=BACKEND)
    return client


@pytest.fixture
def program(world, library):
    return whole_body(world, library)


@pytest.fixture
def fitting(world, program):
    return begin(world, program, [world.client])


def test_each_row_says_what_differs_why_and_what_it_does_to_the_week(coach, world, library, fitting):
    give(world, library, world.client, "dumbbell", "body-weight", training_status="novice")
    text = page(coach, fitting)
    assert "Dumbbell press on a flat bench instead of Barbell bench press" in text
    assert "Not at hand: barbell." in text
    assert "62 % of the sets" in text
    assert "chest" in text
    assert "longest session" in text


def test_muscle_groups_that_leave_their_range_are_in_sight_and_the_others_folded(coach, world, library, fitting):
    give(world, library, world.client, "dumbbell", "body-weight", training_status="novice")
    row = coach.get(reverse("fitting", args=[fitting.pk])).context["rows"][0]
    assert {*row.leaves, *row.others} == set(row.effect.groups)
    for group in row.leaves:
        assert group.standing == "under"
        assert group.before >= group.target.floor > group.after
    # Under its floor as written already: that is the program's, not what differs.
    assert any(group.standing == "under" for group in row.others)
    assert [one.standing == "inside" for one in row.others] == sorted(one.standing == "inside" for one in row.others)


def test_swaps_that_lose_nothing_are_folded(coach, world, library):
    lifts = (
        "machine-lateral-raise",
        "cable-kneeling-crunch",
        "standing-calf-raise-machine",
        "seated-calf-raise-machine",
    )
    slots = [slot(f"s{n}", library.exercise(slug).pk) for n, slug in enumerate((*lifts, "leg-press"))]
    content = document(slots[:2], slots[2:])
    program = program_create(practice=world.practice, author=world.coach, name="Much", document=content)
    fitting = begin(world, program, [world.client])
    give(world, library, world.client, "dumbbell", "barbell", "body-weight", training_status="intermediate")
    row = coach.get(reverse("fitting", args=[fitting.pk])).context["rows"][0]
    plain = {one.proposal.exercise for one in row.folded if one.family == "swap"}
    assert plain == {library.exercise(slug).pk for slug in lifts}
    assert all([why.code for why in one.why] == ["fit_equipment"] for one in row.folded if one.family == "swap")
    # The harder one stays in sight, and so does what the coach said otherwise.
    assert [one.proposal.exercise for one in row.in_sight] == [library.exercise("leg-press").pk]
    choose(coach, fitting, world.client, **{f"accept-swap__{library.exercise(lifts[0]).pk}": None})
    row = coach.get(reverse("fitting", args=[fitting.pk])).context["rows"][0]
    assert library.exercise(lifts[0]).pk in {one.proposal.exercise for one in row.in_sight}


def test_accepting_all_assigns_with_records_the_client_and_coach_can_read(coach, world, library, fitting):
    give(world, library, world.client, "dumbbell", "leg-press")
    assert make(coach, fitting).url == reverse("assignment-detail", args=[Assignment.objects.get().pk])
    assert "barbell-bench-press" not in planned(world.client)
    assert "leg-press" in planned(world.client)
    row = Adaptation.objects.filter(kind="swap").first()
    assert (row.reason, row.created_by, row.edited) == ("fit_equipment", world.coach, False)
    coach.force_login(world.client.user, backend=BACKEND)
    own = coach.get(reverse("assignment-detail", args=[row.assignment_id])).content.decode()
    assert "Adapted for you" in own
    assert "Not at hand: barbell." in own
    assert ">Undo<" not in own


def test_some_are_declined_and_some_chosen_otherwise(coach, world, library, fitting):
    give(world, library, world.client, "dumbbell", "leg-press", "band")
    bench, curl = library.exercise("barbell-bench-press"), library.exercise("barbell-curl")
    form = coach.get(reverse("fitting-client", args=[fitting.pk, world.client.pk])).content.decode()
    assert f'name="{world.client.pk}-to-swap:{bench.pk}"' in form
    floor = library.exercise("dumbbell-floor-press")
    kept = choose(
        coach,
        fitting,
        world.client,
        **{f"to-swap__{bench.pk}": floor.pk, f"accept-swap__{curl.pk}": None, "number-careful": "4"},
    )  # fmt: skip
    assert kept.status_code == 302
    assert "changed by you" in page(coach, fitting)
    make(coach, fitting)
    assert planned(world.client) == {"dumbbell-floor-press", "barbell-curl", "leg-press"}
    assert {(row.kind, row.edited) for row in Adaptation.objects.all()} == {
        ("swap", True),
        ("careful", True),
        ("scale", False),
        ("rir", False),
    }


def test_a_limit_cannot_be_declined_and_nothing_closed_can_be_chosen(coach, world, library, fitting):
    give(world, library, world.client, limit="flat-on-back")
    bench = library.exercise("barbell-bench-press")
    form = coach.get(reverse("fitting-client", args=[fitting.pk, world.client.pk])).content.decode()
    assert f"accept-swap:{bench.pk}" not in form
    assert "has to be met" in form
    closed = library.exercise("dumbbell-flat-press")
    assert choose(coach, fitting, world.client, **{f"to-swap__{bench.pk}": closed.pk}).status_code == 422
    choose(coach, fitting, world.client, **{f"to-swap__{bench.pk}": "0"})
    make(coach, fitting)
    assert planned(world.client) == {"barbell-curl", "leg-press"}


def test_a_limit_that_came_after_the_choice_still_counts(coach, world, library, fitting):
    page(coach, fitting)
    give(world, library, world.client, limit="flat-on-back")
    make(coach, fitting)
    assert "barbell-bench-press" not in planned(world.client)


def test_standing_pain_is_met_like_a_limit(coach, world, library, fitting):
    bench = library.exercise("barbell-bench-press")
    today = world.client.user.today()
    FlagRow.objects.create(
        id="00000000-0000-4000-8000-000000000001", client=world.client, week=today - dt.timedelta(days=today.weekday()),
        rule_id="pain.report", rule_version=2, severity="stop", subject_kind="site", subject="shoulder",
        opened_on=today, code="pain_over", params={"score": 7, "site": "shoulder", "exercises": [str(bench.pk)]},
        clears_code="x", clears_params={}, inputs={},
    )  # fmt: skip
    text = page(coach, fitting)
    assert "Pain of 7 of 10 was reported (shoulder)" in text
    make(coach, fitting)
    assert "barbell-bench-press" not in planned(world.client)


@pytest.mark.parametrize("wrong", ["many", "-3", "99", ""])
def test_a_number_out_of_bounds_is_told_beside_its_field_and_nothing_is_kept(coach, world, library, fitting, wrong):
    reply = choose(coach, fitting, world.client, **{"number-careful": wrong})
    assert reply.status_code == 422
    assert "Not kept yet" in reply.content.decode()
    assert Fitting.objects.get(pk=fitting.pk).choices == {}


def test_going_back_to_the_proposals_and_taking_a_client_off(coach, world, program, library):
    other = make_client(world.practice, "celia", world.coach_membership)
    fitting = begin(world, program, [world.client, other])
    url = reverse("fitting-client", args=[fitting.pk, world.client.pk])
    choose(coach, fitting, world.client, **{"number-careful": "4"})
    assert Fitting.objects.get().choices
    coach.post(url, {"anew": "yes"})
    assert Fitting.objects.get().choices == {}
    coach.post(url, {"off": "yes"})
    assert "Clemens" not in page(coach, fitting)
    make(coach, fitting)
    assert Assignment.objects.get().client == other


def test_it_is_assigned_once(coach, world, fitting):
    make(coach, fitting)
    assert make(coach, fitting).status_code == 422
    assert Assignment.objects.count() == 1


def test_once_assigned_it_shows_what_was_decided_and_nothing_to_change(coach, world, library, fitting):
    give(world, library, world.client, "dumbbell", "leg-press")
    make(coach, fitting)
    plan = Assignment.objects.get()
    # What is known of the client today changes nothing of what was decided then.
    ClientEquipment.objects.all().delete()
    text = page(coach, fitting)
    assert "Assigned on" in text
    assert "instead of Barbell bench press" in text
    assert "Not at hand: barbell." in text
    assert reverse("assignment-detail", args=[plan.pk]) in text
    assert 'action="/fittings' not in text
    adaptation_undo(adaptation=plan.adaptations.filter(kind="swap").first(), user=world.coach)
    assert "Undone by Carla" in page(coach, fitting)
    assert choose(coach, fitting, world.client).url.startswith(reverse("fitting", args=[fitting.pk]))
    one = coach.get(reverse("fitting-client", args=[fitting.pk, world.client.pk]))
    assert one.url == reverse("fitting", args=[fitting.pk])


def test_what_was_decided_costs_the_same_for_few_and_many(coach, world, program, library):
    counts = []
    for number in (2, 6):
        clients = [make_client(world.practice, f"c{number}{n}", world.coach_membership) for n in range(number)]
        for client in clients:
            give(world, library, client, "dumbbell", "leg-press")
        fitting = begin(world, program, clients)
        make(coach, fitting)
        with CaptureQueriesContext(connection) as queries:
            assert "instead of Barbell bench press" in page(coach, fitting)
        counts.append(len(queries))
    assert counts[0] == counts[1] <= 12


def test_a_client_who_went_to_another_coach_is_not_assigned(coach, world, library, program):
    fitting = begin(world, program, [world.client])
    fitting.clients.add(world.other_client)
    assert "Cosima" not in page(coach, fitting)
    make(coach, fitting)
    assert Assignment.objects.get().client == world.client


def test_more_than_a_page_can_hold_is_refused_before_it(coach, world, program):
    ids = [make_client(world.practice, f"c{n}", world.coach_membership).pk for n in range(MOST_CLIENTS + 1)]
    when = {"starts_on": MONDAY.isoformat(), "weekday_0": 0, "weekday_1": 3, "client": ids}
    reply = coach.post(reverse("program-assign", args=[program.pk]), when)
    assert reply.status_code == 422
    assert "At most 60 clients" in reply.content.decode()


def test_htmx_gets_the_row_alone(coach, world, fitting):
    reply = coach.get(reverse("fitting-client", args=[fitting.pk, world.client.pk]), headers={"hx-request": "true"})
    assert reply.content.decode().strip().startswith("<tr")


def test_thirty_clients_with_mixed_facts_cost_at_most_fifteen_questions(
    coach, world, program, library, django_assert_num_queries
):
    kinds = [
        {"gear": ("dumbbell", "band"), "unit": "kg"},
        {"limit": "arm-overhead", "training_status": "novice", "unit": "lb"},
        {"limit": "flat-on-back", "minutes_per_session": 30, "unit": "kg"},
        {"gear": ("machine-stack", "cable"), "training_status": "advanced", "unit": "lb"},
    ]
    people = []
    for n in range(30):
        kind = dict(kinds[n % 4])
        person = make_client(world.practice, f"c{n}", world.coach_membership)
        person.user.load_unit = kind.pop("unit")
        person.user.save()
        give(world, library, person, *kind.pop("gear", ()), **kind)
        people.append(person)
    few, many = begin(world, program, people[:2]), begin(world, program, people)
    page(coach, few)
    with CaptureQueriesContext(connection) as asked:
        page(coach, few)
    assert len(asked) <= 15
    with django_assert_num_queries(len(asked)):
        text = page(coach, many)
    assert text.count("<tr id=") == 30
    made = make(coach, many)
    assert made.status_code == 302
    assert Assignment.objects.count() == 30
    assert timezone.now() - Fitting.objects.get(pk=many.pk).assigned_at < dt.timedelta(minutes=1)
