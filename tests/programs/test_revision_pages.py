"""History, what differs, and bringing a version to clients, as pages."""

import pytest
from django.urls import reverse
from django.utils import timezone

from programs.models import AssignmentRevision, Program
from tests.conftest import make_client
from tests.programs.revision_fixture import begin, make_gym


@pytest.fixture
def gym(world):
    return make_gym(world)


@pytest.fixture
def coach(client, gym):
    client.force_login(gym.coach)
    return client


def text_of(reply, status=200):
    assert reply.status_code == status
    return " ".join(reply.content.decode().split())


def history(coach, gym, name="program-history", *more, **query):
    return coach.get(reverse(name, args=[gym.program.pk, *more]), query)


def bring_page(gym):
    return reverse("program-bring", args=[gym.program.pk])


def four_sets(gym, *weeks):
    for week in weeks or (1, 2, 3, 4):
        gym.edit("prescribe", slot=f"w{week}s1", sets="4")


def test_the_history_says_who_follows_which_version(coach, gym):
    four_sets(gym, 3)
    text = text_of(history(coach, gym))
    assert "1 client follows this version" in text
    assert "Look at 1" in text


def test_two_versions_are_compared_in_words_whatever_the_order(coach, gym):
    four_sets(gym)
    there = text_of(history(coach, gym, "program-differences", **{"from": 1, "to": 5}))
    assert "Wand curl: 3 → 4 sets" in there
    assert "Day 1, every week" in there
    back = text_of(history(coach, gym, "program-differences", **{"from": 5, "to": 1}))
    assert "From version 1 to version 5" in back
    assert "3 → 4 sets" in back
    assert "Nothing differs" in text_of(history(coach, gym, "program-differences", **{"from": 2, "to": 2}))


@pytest.mark.parametrize(
    "query", [{}, {"from": 1}, {"from": "x", "to": 1}, {"from": 1, "to": 99}, {"from": "²", "to": 1}]
)
def test_versions_that_are_not_there_cannot_be_compared(coach, gym, query):
    assert history(coach, gym, "program-differences", **query).status_code == 404


def test_an_earlier_version_is_read_as_it_was(coach, gym):
    gym.edit("swap", slot="w1s1", exercise=gym.library.hammer.pk)
    text = text_of(history(coach, gym, "program-version", 1))
    assert "Wand curl" in text
    assert "Hammer grip curl" not in text
    assert "data-save" not in text
    assert history(coach, gym, "program-version", 9).status_code == 404


def test_a_program_is_copied_from_any_version(coach, gym):
    before = gym.program.document
    four_sets(gym, 2)
    coach.post(reverse("program-version-copy", args=[gym.program.pk, 1]))
    copy = Program.objects.exclude(pk=gym.program.pk).get()
    assert (copy.document, copy.author, copy.version) == (before, gym.coach, 1)
    assert copy.revisions.count() == 1


def test_the_program_page_says_that_clients_follow_an_earlier_version(coach, gym):
    page = reverse("program-editor", args=[gym.program.pk])
    assert "Bring it to clients" not in text_of(coach.get(page))
    four_sets(gym, 2)
    text = text_of(coach.get(page))
    assert "1 client follows version 1. The program is at version 2." in text
    assert bring_page(gym) in text


def test_the_page_says_what_changes_when_and_what_is_left_alone(coach, gym):
    begin(gym.session("w2d1"))
    gym.session("w3d1").slots.filter(position=1).update(sets=2)
    four_sets(gym)
    text = text_of(coach.get(bring_page(gym)))
    assert "1 session changes" not in text
    assert "Wand curl: 3 → 4 sets" in text
    assert "Left alone: running now" in text
    assert "Changed for this client" in text
    assert "Wand curl: 2 → 4 sets" in text


def post(coach, gym, *assignments, version=None, **more):
    gym.program.refresh_from_db()
    data = {"version": version or gym.program.version, "assignment": [one.pk for one in assignments], **more}
    return coach.post(bring_page(gym), data)


def test_it_is_brought_to_those_who_are_ticked(coach, gym):
    (other,) = gym.assign(make_client(gym.practice, "celia", gym.coach_membership))
    four_sets(gym)
    assert post(coach, gym, other).url == bring_page(gym)
    assert AssignmentRevision.objects.get().assignment == other
    assert post(coach, gym, gym.assignment).url == reverse("program-editor", args=[gym.program.pk])


def test_what_was_changed_for_the_client_is_taken_over_when_ticked(coach, gym):
    planned = gym.session("w3d1")
    planned.slots.filter(position=1).update(sets=2)
    four_sets(gym)
    post(coach, gym, gym.assignment, take=[planned.pk])
    assert planned.slots.first().sets == 4


def test_nobody_ticked_and_a_version_of_yesterday_are_told(coach, gym):
    four_sets(gym)
    assert "Tick at least one client" in text_of(post(coach, gym), 422)
    assert "changed in between" in text_of(post(coach, gym, gym.assignment, version=2), 409)
    assert not AssignmentRevision.objects.exists()


def test_a_colleague_brings_it_only_to_their_own_clients(client, gym):
    four_sets(gym)
    client.force_login(gym.colleague)
    assert "Clemens" not in text_of(client.get(bring_page(gym)))
    post(client, gym, gym.assignment)
    assert not AssignmentRevision.objects.exists()


def test_an_exercise_closed_to_the_client_is_not_brought(coach, gym):
    from programs.models import ClientLimit

    ClientLimit.objects.create(client=gym.client, exercise=gym.library.hammer, since=gym.today, told_by=gym.coach)
    gym.edit("add-slot", day="w3d1", exercise=gym.library.hammer.pk)
    assert "Hammer grip curl is closed to this client" in text_of(coach.get(bring_page(gym)))
    post(coach, gym, gym.assignment)
    assert gym.session("w3d1").slots.count() == 2


def test_a_limit_with_days_closes_on_those_alone(coach, gym):
    from programs.models import ClientLimit

    limit = ClientLimit.objects.create(
        client=gym.client, exercise=gym.library.hammer, since=gym.today, until=gym.today, told_by=gym.coach
    )
    gym.edit("add-slot", day="w3d1", exercise=gym.library.hammer.pk)
    assert "is closed to this client" not in text_of(coach.get(bring_page(gym)))
    limit.until = gym.session("w3d1").date
    limit.save()
    assert "Hammer grip curl is closed to this client" in text_of(coach.get(bring_page(gym)))
    # While a pause holds it nobody knows the day: every later one counts.
    limit.since = limit.until = gym.session("w4d2").date
    limit.save()
    assert "is closed to this client" not in text_of(coach.get(bring_page(gym)))
    gym.assignment.refresh_from_db()
    gym.assignment.paused_on, gym.assignment.paused_at = gym.session("w3d1").date, timezone.now()
    gym.assignment.save()
    gym.assignment.sessions.filter(date__gte=gym.assignment.paused_on).update(cancelled_at=gym.assignment.paused_at)
    assert "Hammer grip curl is closed to this client" in text_of(coach.get(bring_page(gym)))


def test_an_adaptation_holds_for_the_new_version_too(coach, gym):
    from programs.models import Adaptation

    Adaptation.objects.create(
        assignment=gym.assignment, client=gym.client, kind="swap", exercise=gym.library.hammer,
        to_exercise=gym.library.reach, reason="equipment", created_by=gym.coach,
    )  # fmt: skip
    gym.edit("add-slot", day="w3d1", exercise=gym.library.hammer.pk)
    post(coach, gym, gym.assignment)
    assert gym.session("w3d1").slots.last().exercise == gym.library.reach


def test_the_record_is_read_by_the_client_and_taken_back_by_the_coach(client, gym):
    four_sets(gym)
    (revision,) = gym.bring()
    record = reverse("assignment-revisions", args=[gym.assignment.pk])
    client.force_login(gym.client.user)
    text = text_of(client.get(record))
    assert "Wand curl: 3 → 4 sets" in text
    assert "Take this back" not in text
    assert "What changed" in text_of(client.get(reverse("assignment-detail", args=[gym.assignment.pk])))
    client.force_login(gym.coach)
    undo = reverse("assignment-revision-undo", args=[revision.pk])
    assert "Take this back" in text_of(client.get(record))
    assert client.post(undo).url == record
    assert gym.session("w3d1").slots.first().sets == 3
    assert "taken back already" in text_of(client.post(undo), 422)


def test_thirty_clients_cost_the_same_queries_as_one(
    coach, gym, django_assert_num_queries, django_assert_max_num_queries
):
    others = gym.assign(*[make_client(gym.practice, f"celia{n}", gym.coach_membership) for n in range(29)])
    four_sets(gym)
    rest = gym.program.assignments.filter(pk__in=[one.pk for one in others])
    rest.update(program_version=gym.program.version)
    coach.get(bring_page(gym))
    # session, user, membership, program; count, copies; sessions, rows, touched, versions, adaptations; limits, claims,
    # exercises
    with django_assert_max_num_queries(15) as few:
        coach.get(bring_page(gym))
    rest.update(program_version=1)
    with django_assert_num_queries(len(few)):
        text = text_of(coach.get(bring_page(gym)))
    assert text.count('name="assignment"') == 30
    assert text.count("Wand curl: 3 → 4 sets") == 30


def test_the_history_costs_the_same_for_few_versions_and_many(coach, gym, django_assert_num_queries):
    four_sets(gym, 2)
    history(coach, gym)
    # session, user, membership, program, count, versions, who follows, may write
    with django_assert_num_queries(8):
        history(coach, gym)
    for number in range(30):
        gym.edit("prescribe", slot="w3s1", sets=str(number % 5 + 1))
    with django_assert_num_queries(8):
        text = text_of(history(coach, gym))
    assert "Page 1 of 2" in text
