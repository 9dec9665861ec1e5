"""The page that fits a running copy again: what is proposed, chosen, refused and written."""

import datetime as dt

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coaching.fitting.again import AgainDesk
from coaching.fitting.forms import ChoiceForm
from programs.models import Adaptation, Assignment, ClientEquipment, ClientLimit, Limit, PlannedSlot
from programs.services.assignment_make import program_assign
from programs.services.program_write import program_create
from tests.programs.factories import document, slot
from tests.programs.revision_fixture import begin, log_set

BACKEND = "allauth.account.auth_backends.AuthenticationBackend"


@pytest.fixture
def coach(client, world):
    client.force_login(world.coach, backend=BACKEND)
    return client


@pytest.fixture
def plan(world, library):
    """Four weeks of two days, of which the first is done; the client is intermediate, and has everything."""
    world.client.training_status = "intermediate"
    world.client.save()
    bench, curl, press = (library.exercise(s).pk for s in ("barbell-bench-press", "barbell-curl", "leg-press"))
    program = program_create(
        practice=world.practice, author=world.coach, name="Whole body",
        document=document([slot("s1", bench), slot("s2", curl)], [slot("s3", press, sets=4)], weeks=4),
    )  # fmt: skip
    begun = world.client.user.today() - dt.timedelta(days=7)
    [made] = program_assign(
        program=program, clients=[world.client], starts_on=begun,
        weekdays=[begun.weekday(), (begun.weekday() + 3) % 7], assigned_by=world.coach,
    )  # fmt: skip
    for planned in made.sessions.filter(date__lt=world.client.user.today()):
        session = begin(planned, finished=True)
        for row in planned.slots.all():
            log_set(session, row)
    return made


def address(plan, **query):
    return reverse("fit-again", args=[plan.pk], query=query or None)


def limit(world, slug):
    row = Limit.objects.get(slug=slug)
    return ClientLimit.objects.create(
        client=world.client, limit=row, since=world.client.user.today(), told_by=world.coach
    )


def give(world, library, *gear):
    for one in gear:
        ClientEquipment.objects.create(client=world.client, equipment=library.equipment(one), told_by=world.coach)


def filled(plan, press="write", **said):
    """The open form as it stands, but for `said`; None leaves a tick away."""
    plan = Assignment.objects.select_related("client__user", "client__practice", "program").get(pk=plan.pk)
    desk = AgainDesk(plan, None)
    page = desk.page({}, {one.pk for one in desk.standing if one.edited})
    form = ChoiceForm(
        proposals=page.again.proposals, exercises=desk.library.pool.exercises, unit=plan.client.user.load_unit
    )
    stands = {name: form.get_initial_for_field(field, name) for name, field in form.fields.items()}
    stands |= {f"gone-{one.line.row.pk}": "yes" for one in page.gone}
    stands |= {f"back-{one.line.row.pk}": one.back and "yes" for one in page.gone}
    stands |= {name.replace("__", ":"): value for name, value in said.items()}
    stands |= {"shown": [one.id for one in page.again.proposals], "seen": desk.seen, press: "yes"}
    return {name: value for name, value in stands.items() if value not in (None, False)}


def text(reply):
    return " ".join(reply.content.decode().split())


def to_come(world):
    rows = PlannedSlot.objects.filter(session__client=world.client, session__date__gte=world.client.user.today())
    return set(rows.values_list("exercise__slug", flat=True))


def test_nothing_changed_says_so_and_offers_no_button(coach, plan, world):
    page = text(coach.get(address(plan)))
    assert "fits" in page
    assert 'name="write"' not in page


def test_a_limit_added_since_is_proposed_with_reason_and_effect_and_written(coach, plan, world, library):
    told = limit(world, "flat-on-back")
    page = text(coach.get(address(plan)))
    assert f"Added since: to keep from {told.limit.name}." in page
    assert "has to be met" in page
    assert "Weekly volume stays as it is." in page
    out = {f"to-swap__{library.exercise('barbell-bench-press').pk}": "0"}
    looked = text(coach.post(address(plan), filled(plan, "look", **out)))
    assert "<li><span>chest</span>" in looked
    assert "Sets a week: chest 3 → 0" in looked
    assert coach.post(address(plan), filled(plan)).status_code == 302
    assert "barbell-bench-press" not in to_come(world)
    swap = Adaptation.objects.get(kind="swap")
    assert (swap.reason, swap.created_by) == ("fit_limit", world.coach)
    assert "fits" in text(coach.get(address(plan)))
    own = text(coach.get(reverse("assignment-detail", args=[plan.pk])))
    assert "Kept from:" in own


def test_what_a_decision_gave_is_exchanged_when_a_limit_closes_it(coach, plan, world, library):
    curl, hammer = library.exercise("barbell-curl"), library.exercise("dumbbell-hammer-curl")
    rows = PlannedSlot.objects.filter(session__assignment=plan, session__date__gte=world.client.user.today())
    rows.filter(exercise=curl).update(exercise=hammer)
    assert "fits" in text(coach.get(address(plan)))
    ClientLimit.objects.create(
        client=world.client, exercise=hammer, since=world.client.user.today(), told_by=world.coach
    )
    page = text(coach.get(address(plan)))
    assert f"instead of {hammer.name}" in page
    assert "has to be met" in page
    assert coach.post(address(plan), filled(plan)).status_code == 302
    assert not to_come(world) & {"dumbbell-hammer-curl", "barbell-curl"}
    swap = Adaptation.objects.get(kind="swap")
    assert (swap.exercise, swap.reason, bool(swap.slots)) == (hammer, "fit_limit", True)
    assert "fits" in text(coach.get(address(plan)))
    # Left out because nothing else was wanted: the rows go.
    out = {f"to-decided__{hammer.pk}": "0"}
    swap.delete()
    rows.filter(slot_key__endswith="s2").update(exercise=hammer)
    coach.post(address(plan), filled(plan, **out))
    assert to_come(world) == {"barbell-bench-press", "leg-press"}


def test_some_are_declined_and_one_is_chosen_otherwise(coach, plan, world, library):
    give(world, library, "dumbbell", "leg-press")
    bench, curl, floor = (library.exercise(s) for s in ("barbell-bench-press", "barbell-curl", "dumbbell-floor-press"))
    said = {f"to-swap__{bench.pk}": floor.pk, f"accept-swap__{curl.pk}": None}
    looked = coach.post(address(plan), filled(plan, "look", **said))
    assert (looked.status_code, Adaptation.objects.count()) == (200, 0)
    assert "Worked out with your choices" in text(looked)
    coach.post(address(plan), filled(plan, **said))
    assert to_come(world) == {"dumbbell-floor-press", "barbell-curl", "leg-press"}
    assert Adaptation.objects.get(kind="swap").edited


def test_what_lost_its_reason_is_taken_back_or_left(coach, plan, world, library):
    give(world, library, "dumbbell", "leg-press")
    coach.post(address(plan), filled(plan))
    ClientEquipment.objects.all().delete()
    page = text(coach.get(address(plan)))
    assert "No longer needed" in page
    swaps = Adaptation.objects.filter(kind="swap")
    curl = swaps.get(exercise=library.exercise("barbell-curl"))
    coach.post(address(plan), filled(plan, **{f"back-{curl.pk}": None}))
    assert "barbell-bench-press" in to_come(world)
    assert "barbell-curl" not in to_come(world)
    assert swaps.get(undone_at=None) == curl


def test_facts_that_changed_after_the_look_are_looked_at_again(coach, plan, world):
    limit(world, "flat-on-back")
    sent = filled(plan)
    world.client.minutes_per_session = 20
    world.client.save()
    reply = coach.post(address(plan), sent)
    assert (reply.status_code, Adaptation.objects.exists()) == (422, False)
    assert "changed meanwhile" in text(reply)


def test_what_a_choice_brings_with_it_is_shown_before_it_is_written(coach, plan, world, library):
    give(world, library, "dumbbell", "leg-press")
    world.client.minutes_per_session = 20
    world.client.save()
    sent = filled(plan)
    sent["shown"] = sent["shown"][:1]
    reply = coach.post(address(plan), sent)
    assert (reply.status_code, Adaptation.objects.exists()) == (422, False)
    assert "brings more with it" in text(reply)


@pytest.mark.parametrize("wrong", ["many", "-3", "99", ""])
def test_a_number_out_of_bounds_is_told_beside_its_field(coach, plan, world, wrong):
    limit(world, "flat-on-back")
    reply = coach.post(address(plan), filled(plan, **{"number-careful": wrong}))
    assert (reply.status_code, Adaptation.objects.exists()) == (422, False)
    assert "stands beside each field" in text(reply)


def test_a_journey_reaches_only_its_days(coach, plan, world, library):
    later = plan.sessions.filter(date__gt=world.client.user.today()).order_by("date")[1].date
    query = {"first": later, "last": later + dt.timedelta(days=1), "gear": library.equipment("dumbbell").pk}
    page = coach.get(address(plan, **query))
    assert "Only the sessions from" in text(page)
    desk = page.context["desk"]
    shown = [one.id for one in page.context["page"].again.proposals]
    form = {f"accept-{name}": "yes" for name in shown}
    for one, line in page.context["proposed"]:
        name = one.difference.proposal.id
        form |= {f"to-{name}": one.difference.proposal.change.to or 0} if line.to else {}
        form |= {f"number-{name}": one.difference.proposal.number} if line.number else {}
    reply = coach.post(address(plan, **query), form | {"shown": shown, "seen": desk.seen, "write": "yes"})
    assert reply.status_code == 302
    on = {row.date: {slot.exercise.equipment.slug for slot in row.slots.all()} for row in plan.sessions.all()}
    assert on.pop(later) <= {"dumbbell"}
    assert "dumbbell" not in {gear for some in on.values() for gear in some}
    assert {row.until for row in Adaptation.objects.all()} == {later + dt.timedelta(days=1)}


@pytest.mark.parametrize(
    ("query", "said"),
    [
        ({"first": "soon", "last": "2027-01-01"}, "Enter a valid date"),
        ({"first": "2027-01-02", "last": "2027-01-01"}, "lies before the first"),
        ({"first": "2027-01-01", "last": "2027-01-02", "minutes": "2"}, "greater than or equal to 15"),
        ({"first": "2027-01-01", "last": "2027-01-02", "gear": "999999"}, "not one of the available choices"),
    ],
)
def test_days_that_make_no_sense_are_told_beside_their_field(coach, plan, query, said):
    reply = coach.get(address(plan, **query))
    assert reply.status_code == 422
    assert said in text(reply)


def test_days_without_a_session_say_so(coach, plan):
    page = text(coach.get(address(plan, first="2020-01-01", last="2020-01-07")))
    assert "No session that is not logged yet lies on these days." in page


def test_what_is_over_and_what_has_no_program_says_so(coach, plan, world):
    plan.program = None
    plan.save()
    assert "The program is gone" in text(coach.get(address(plan)))
    plan.status, plan.ended_on = "ended", world.client.user.today() - dt.timedelta(days=1)
    plan.save()
    assert "Its last day is over" in text(coach.get(address(plan)))


def test_the_coach_can_leave_it_as_it_is_and_is_not_told_again(coach, plan, world):
    world.client.minutes_per_session = 200
    world.client.save()
    assert "A session may take 200 min now" in text(coach.get(address(plan)))
    coach.post(address(plan), filled(plan))
    assert "A session may take" not in text(coach.get(reverse("client-page", args=[world.client.pk])))


def test_the_page_costs_the_same_for_a_short_and_a_long_plan(coach, plan, world, library):
    limit(world, "flat-on-back")
    give(world, library, "dumbbell")
    coach.get(address(plan))
    counts = []
    for _more in range(2):
        with CaptureQueriesContext(connection) as asked:
            coach.get(address(plan))
        counts.append(len(asked))
        coach.post(address(plan), filled(plan))
        for one in plan.sessions.filter(date__gt=world.client.user.today()):
            one.pk, one.date = None, one.date + dt.timedelta(days=60)
            one.save()
    assert max(counts) <= 32, counts
    assert counts[1] <= counts[0] + 2
