"""Thirty clients on one page: what several share is decided once, the urgent stands first, and the rest is folded."""

import datetime as dt

import pytest
from django.urls import reverse

from accounts.models import AuditEntry
from coaching.fitting.rows import fit_page
from coaching.models import FlagRow
from programs.models import Fitting
from tests.coaching.fitting_acts import begin, give, make, page, planned, whole_body
from tests.conftest import make_client

ADDRESS = "fitting-together"
BACKEND = "allauth.account.auth_backends.AuthenticationBackend"


@pytest.fixture
def coach(client, world):
    client.force_login(world.coach, backend=BACKEND)
    return client


@pytest.fixture
def program(world, library):
    return whole_body(world, library)


@pytest.fixture
def people(world, library):
    """Three with dumbbells alone, one of them with bands; one with a limit; one with everything."""
    made = [make_client(world.practice, f"c{n}", world.coach_membership) for n in range(5)]
    for person in made:
        person.training_status = "intermediate"
        person.save()
    for person in made[:3]:
        give(world, library, person, "dumbbell", "leg-press")
    give(world, library, made[2], "band")
    give(world, library, made[3], limit="flat-on-back")
    return made


@pytest.fixture
def fitting(world, program, people):
    return begin(world, program, people)


def groups(fitting, people):
    return fit_page(Fitting.objects.get(pk=fitting.pk), people).groups


def group_of(fitting, people, name):
    [found] = [one for one in groups(fitting, people) if name in one.what]
    return found


def decide(coach, fitting, group, clients, **said):
    data = {"group": group.key, "client": [one.pk for one in clients]} | said
    return coach.post(reverse(ADDRESS, args=[fitting.pk]), data)


def members(group):
    return [one.row.client for one in group.members]


def to_of(fitting, person, people, exercise):
    row = next(row for row in fit_page(Fitting.objects.get(pk=fitting.pk), people).rows if row.client == person)
    [found] = [one for one in row.fitted.proposals if one.exercise == exercise and one.id.startswith("swap")]
    return found


def test_equal_proposals_of_several_are_one_line(coach, fitting, people):
    group = group_of(fitting, people, "instead of Barbell bench press")
    assert members(group) == people[:3]
    assert group.why == "Not at hand: barbell."
    text = " ".join(page(coach, fitting).split())
    assert text.count(f'value="{group.key}"') == 1
    # The limit of one is nobody else's, though it is about the same exercise.
    assert all(people[3] not in members(one) for one in groups(fitting, people) if one.kind in ("limits", "gear"))


def test_a_decision_reaches_the_ticked_and_leaves_the_others(coach, library, fitting, people):
    bench, floor = library.exercise("barbell-bench-press").pk, library.exercise("dumbbell-floor-press").pk
    group = group_of(fitting, people, "instead of Barbell bench press")
    before = group.one.proposal.change.to
    reply = decide(coach, fitting, group, people[:2], what=floor)
    assert reply.url.endswith(f"#{group.place}")
    chosen = [to_of(fitting, one, people, bench).change.to for one in people[:3]]
    assert chosen == [floor, floor, before]
    mine = next(one for one in groups(fitting, people) if one.one.proposal.change.to == floor)
    assert (members(mine), mine.touched, mine.place) == (people[:2], True, group.place)


def test_what_was_said_to_other_proposals_stays(coach, library, fitting, people):
    careful = group_of(fitting, people, "First time with")
    decide(coach, fitting, careful, people, what="yes", number="4")
    swap = group_of(fitting, people, "instead of Barbell bench press")
    decide(coach, fitting, swap, people[:1], what="no")
    said = Fitting.objects.get().choices
    assert all(one["careful"]["number"] == 4 for one in said.values())
    assert len(said) == 5
    assert said[str(people[0].pk)][f"swap:{library.exercise('barbell-bench-press').pk}"] == {"accept": False}


def test_going_back_forgets_what_was_said(coach, fitting, people):
    group = group_of(fitting, people, "instead of Barbell bench press")
    decide(coach, fitting, group, people[:3], what="0")
    out = group_of(fitting, people, "Barbell bench press is left out")
    # What the coach wants left out is no alarm.
    assert not out.one.unmet
    decide(coach, fitting, out, people[:3], what="0", anew="yes")
    assert Fitting.objects.get().choices == {}
    assert members(group_of(fitting, people, "instead of Barbell bench press")) == people[:3]


def test_what_is_not_open_to_someone_is_refused_with_their_name_and_nothing_kept(
    coach,
    library,
    fitting,
    people,
):
    group = group_of(fitting, people, f"instead of {library.exercise('barbell-curl').name}")
    only = [option.exercise for option, count in group.options if count == 1]
    assert only, "the bands of one of them open nothing more"
    reply = decide(coach, fitting, group, members(group), what=only[0])
    text = reply.content.decode()
    assert reply.status_code == 422
    assert f"Not open to {people[0]}, {people[1]}." in text
    assert Fitting.objects.get().choices == {}
    assert decide(coach, fitting, group, people[2:3], what=only[0]).status_code == 302


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ({"what": "999999"}, "Select a valid choice"),
        ({"what": ""}, "This field is required"),
        ({"what": "yes"}, "Select a valid choice"),
    ],
)
def test_a_decision_that_makes_no_sense_is_told_beside_its_field(coach, fitting, people, said, words):
    group = group_of(fitting, people, "instead of Barbell bench press")
    reply = decide(coach, fitting, group, people[:3], **said)
    assert (reply.status_code, Fitting.objects.get().choices) == (422, {})
    assert words in reply.content.decode()


@pytest.mark.parametrize("number", ["", "many", "-1", "99"])
def test_a_number_out_of_bounds_is_refused(coach, fitting, people, number):
    group = group_of(fitting, people, "First time with")
    assert decide(coach, fitting, group, people, what="yes", number=number).status_code == 422
    assert Fitting.objects.get().choices == {}


def test_nobody_and_strangers_are_refused(coach, world, fitting, people):
    group = group_of(fitting, people, "instead of Barbell bench press")
    assert "Choose at least one client" in decide(coach, fitting, group, [], what="0").content.decode()
    assert decide(coach, fitting, group, [world.other_client], what="0").status_code == 422
    # Of the fitting, but not of the group.
    assert decide(coach, fitting, group, [people[4]], what="0").status_code == 422
    assert Fitting.objects.get().choices == {}


def test_a_group_that_is_proposed_otherwise_meanwhile_changes_nothing(coach, world, library, fitting, people):
    group = group_of(fitting, people, "instead of Barbell bench press")
    for person in people[:3]:
        give(world, library, person, "barbell")
    reply = coach.post(reverse(ADDRESS, args=[fitting.pk]), {"group": group.key, "what": "0"}, follow=True)
    assert "proposed otherwise meanwhile" in reply.content.decode()
    assert Fitting.objects.get().choices == {}
    assert not AuditEntry.objects.filter(kind=AuditEntry.Kind.CHANGED).exists()


def test_who_is_proposed_something_else_meanwhile_is_told_and_nobody_is_decided_for(
    coach, world, library, fitting, people
):
    group = group_of(fitting, people, "instead of Barbell bench press")
    give(world, library, people[0], "barbell")
    give(world, library, people[4], "dumbbell", "leg-press")
    reply = decide(coach, fitting, group, people[:3], what="0")
    assert (reply.status_code, Fitting.objects.get().choices) == (422, {})
    assert "Something else is proposed to one of them meanwhile" in reply.content.decode()
    [form] = [one for part in reply.context["together"] for one in (*part.telling, *part.plain) if one.errors]
    ticks = {name: ticked for _pk, name, ticked in form.people()}
    assert ticks == {str(people[1]): True, str(people[2]): True, str(people[4]): False}
    # Who came to be proposed the same was not shown, and is not decided for.
    decide(coach, fitting, group, people[1:3], what="0")
    assert set(Fitting.objects.get().choices) == {str(people[1].pk), str(people[2].pk)}


def test_a_limit_cannot_be_passed_over_together(coach, world, library, program):
    people = [make_client(world.practice, f"l{n}", world.coach_membership) for n in range(2)]
    for person in people:
        give(world, library, person, limit="flat-on-back", training_status="intermediate")
    fitting = begin(world, program, people)
    group = group_of(fitting, people, "instead of Barbell bench press")
    assert decide(coach, fitting, group, people, what="no").status_code == 422
    decide(coach, fitting, group, people, what="0")
    make(coach, fitting)
    assert all("barbell-bench-press" not in planned(one) for one in people)


def test_once_assigned_nothing_is_decided(coach, fitting, people):
    group = group_of(fitting, people, "instead of Barbell bench press")
    make(coach, fitting)
    AuditEntry.objects.all().delete()
    assert decide(coach, fitting, group, people[:3], what="0").url == reverse("fitting", args=[fitting.pk])
    reply = coach.post(reverse("fitting-client", args=[fitting.pk, people[0].pk]), {"anew": "yes"})
    assert reply.url == reverse("fitting", args=[fitting.pk])
    assert not AuditEntry.objects.filter(kind=AuditEntry.Kind.CHANGED).exists()
    assert Fitting.objects.get().choices == {}


def test_pain_is_nobody_elses_and_stands_first(coach, world, library, fitting, people):
    bench = library.exercise("barbell-bench-press")
    for n, person in enumerate(people[3:]):
        today = person.user.today()
        monday = today - dt.timedelta(days=today.weekday())
        FlagRow.objects.create(
            id=f"00000000-0000-4000-8000-00000000000{n}", client=person, week=monday,
            rule_id="pain.report", rule_version=2, severity="stop", subject_kind="site", subject="shoulder",
            opened_on=today, code="pain_over", params={"score": 7, "site": "shoulder", "exercises": [str(bench.pk)]},
            clears_code="x", clears_params={}, inputs={},
        )  # fmt: skip
    assert "pain" not in {one.kind for one in groups(fitting, people)}
    rows = coach.get(reverse("fitting", args=[fitting.pk])).context["rows"]
    assert [row.client for row in rows if any(one.kind == "pain" for one in row.in_sight)] == [people[4]]
    assert rows[0].first


def test_every_difference_of_everyone_stands_in_their_row(coach, fitting, people):
    for row in coach.get(reverse("fitting", args=[fitting.pk])).context["rows"]:
        shown = [one.proposal.id for one in (*row.in_sight, *row.folded, *row.starts)]
        assert sorted(shown) == sorted(one.id for one in row.fitted.proposals)


def test_the_summary_counts_and_sifting_finds_what_it_counted(coach, fitting, people):
    whole = coach.get(reverse("fitting", args=[fitting.pk])).context
    assert whole["sum"].clients == 5
    for sieve in whole["sieves"]:
        one = coach.get(reverse("fitting", args=[fitting.pk]), {"show": sieve.code}).context
        assert len(one["rows"]) == sieve.count
        assert all(sieve.code in row.kinds for row in one["rows"])
        assert one["sum"] == whole["sum"]
    limits = coach.get(reverse("fitting", args=[fitting.pk]), {"show": "limits"}).context["rows"]
    assert [row.client for row in limits] == [people[3]]
    none = coach.get(reverse("fitting", args=[fitting.pk]), {"show": "pain"})
    assert "No client fits." in none.content.decode()
    assert coach.get(reverse("fitting", args=[fitting.pk]), {"show": "<x>"}).context["shown"] == ""


def test_a_decision_comes_back_to_the_page_as_it_was_sifted(coach, fitting, people):
    group = group_of(fitting, people, "instead of Barbell bench press")
    assert "?show=gear#" in decide(coach, fitting, group, people[:3], what="0", show="gear").url
    assert "?" not in decide(coach, fitting, group, people[:3], what="0", show="<x>").url


def test_who_reads_the_address_after_signing_in_again_comes_to_the_fitting(coach, fitting, people):
    assert coach.get(reverse(ADDRESS, args=[fitting.pk])).url == reverse("fitting", args=[fitting.pk])


def test_what_the_coach_left_out_is_no_one_line_with_what_has_no_substitute(coach, world, library, program, people):
    for person in people[3:]:
        give(world, library, person, "leg-press")
    people[3].limits.all().delete()
    fitting = begin(world, program, people)
    decide(coach, fitting, group_of(fitting, people, "instead of Barbell bench press"), people[:3], what="0")
    left_out = [one for one in groups(fitting, people) if one.what == "Barbell bench press is left out"]
    assert {tuple(members(one)): (one.one.unmet, one.touched) for one in left_out} == {
        tuple(people[:3]): (False, True),
        tuple(people[3:]): (True, False),
    }
