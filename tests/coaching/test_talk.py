"""The desk's side: comments with a client, the mark on the board, and notes that no client ever sees."""

import uuid

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from accounts.models import Client, Membership
from coaching.models import CoachNote
from coaching.services.note import note_write
from logbook.models import Comment
from logbook.services.comments import comment_write
from tests.coaching import factories as make

pytestmark = pytest.mark.django_db
SECRET = "Skips legs when nobody looks."


@pytest.fixture
def desk(client, world):
    client.force_login(world.coach)
    return client


def comments(world):
    return reverse("client-comments", args=[world.client.pk])


def notes(world):
    return reverse("client-notes", args=[world.client.pk])


def say(world, author, text="Hello."):
    return comment_write(client=world.client, author=author, text=text, written_at=timezone.now())


def test_a_coach_comments_on_a_week(desk, world):
    day = make.monday().isoformat()
    desk.post(comments(world), {"comment": uuid.uuid4(), "text": "A good week.", "week": day})
    comment = Comment.objects.get()
    assert (comment.week, comment.author) == (make.monday(), world.coach)
    assert "about the week of" in desk.get(comments(world)).content.decode()


def test_the_board_says_how_many_comments_are_new_to_the_reader(desk, world):
    for _ in range(2):
        say(world, world.client.user)
    assert "2 new comments" in desk.get("/week/").content.decode()
    desk.force_login(world.owner)
    assert "new comment" not in desk.get("/week/").content.decode()


def test_the_board_costs_the_same_with_comments(desk, world):
    def count():
        with CaptureQueriesContext(connection) as seen:
            desk.get("/week/")
        return len(seen)

    few = count()
    for _ in range(15):
        say(world, world.client.user)
    assert count() == few


def test_a_note_is_read_by_who_trains_the_client_and_changed_by_its_author(desk, world):
    desk.post(notes(world), {"text": SECRET})
    note = CoachNote.objects.get()
    assert SECRET in desk.get(notes(world)).content.decode()
    desk.post(reverse("note", args=[note.pk]), {"text": "Sleeps badly."})
    note.refresh_from_db()
    assert (note.text, note.edited_at is not None) == ("Sleeps badly.", True)
    desk.force_login(world.owner)
    assert "Sleeps badly." in desk.get(notes(world)).content.decode()
    assert desk.post(reverse("note-remove", args=[note.pk])).status_code == 403
    desk.force_login(world.coach)
    desk.post(reverse("note-remove", args=[note.pk]))
    assert not CoachNote.objects.exists()


@pytest.mark.parametrize("text", ["", "  ", "x" * 4001])
def test_an_empty_or_endless_note_is_refused_beside_the_field(desk, world, text):
    answer = desk.post(notes(world), {"text": text})
    assert answer.status_code == 422
    assert answer.context["form"].errors["text"]
    assert not CoachNote.objects.exists()


def test_no_page_and_no_answer_of_the_api_shows_a_client_a_note(client, world, exercises):
    make.train(world.client, world.coach, exercises, weeks=2)
    note_write(client=world.client, author=world.coach, text=SECRET)
    client.force_login(world.client.user)
    session = world.client.sessions.first()
    pages = [
        "/", "/train/", "/train/plan/", "/train/done/", f"/train/done/{session.pk}/", "/train/comments/",
        "/train/progress/", "/train/progress/volume.csv",
        "/train/check-in/", "/train/phone/pages/", "/api/v1/plan/", "/api/v1/sessions/",
        f"/api/v1/sessions/{session.pk}/", "/api/v1/check-ins/", "/api/v1/comments/", "/api/v1/schema/",
        notes(world), comments(world), f"/clients/{world.client.pk}/",
    ]  # fmt: skip
    for page in pages:
        answer = client.get(page, follow=True)
        assert SECRET not in answer.content.decode(), page
    assert not CoachNote.objects.visible_to(world.client.user).exists()


def test_an_owner_who_is_trained_here_reads_no_note_about_themselves(client, world):
    own = Client.objects.create(user=world.owner, practice=world.practice)
    note_write(client=own, author=world.coach, text=SECRET)
    client.force_login(world.owner)
    assert client.get(reverse("client-notes", args=[own.pk])).status_code == 404
    assert client.get(reverse("note", args=[CoachNote.objects.get().pk])).status_code == 404
    assert SECRET not in client.get(reverse("client-comments", args=[own.pk])).content.decode()


def test_a_coach_who_is_made_an_owner_elsewhere_reads_no_note_of_this_practice(world):
    note_write(client=world.client, author=world.coach, text=SECRET)
    assert world.outsider_membership.role == Membership.Role.OWNER
    assert not CoachNote.objects.visible_to(world.outsider).exists()
    assert not CoachNote.objects.visible_to(world.colleague).exists()


def test_lists_are_paged_and_cost_the_same(desk, world):
    def count(url):
        with CaptureQueriesContext(connection) as seen:
            desk.get(url)
        return len(seen)

    note_write(client=world.client, author=world.coach, text="One.")
    say(world, world.client.user)
    few = count(notes(world)), count(comments(world))
    for n in range(30):
        note_write(client=world.client, author=world.coach, text=f"Number {n}.")
        say(world, world.client.user)
    # A second page has to be counted; its links cost no query.
    assert (count(notes(world)), count(comments(world))) == few
    assert "Page 1 of 2" in desk.get(notes(world)).content.decode()
