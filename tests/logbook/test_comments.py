"""Comments: between a client and who trains them, read by nobody else, new to each reader until read."""

import datetime as dt
import uuid

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from accounts.models import Engagement
from logbook.models import Comment, Session, UnreadComment
from logbook.operations.refused import Refused
from logbook.services.comments import comment_write
from logbook.signals import comment_written
from tests.logbook.conftest import signed_in
from tests.logbook.factories import NOW, op
from tests.logbook.test_page_today import text_of


def say(client, author, text="Well done.", **about):
    return comment_write(client=client, author=author, text=text, written_at=timezone.now(), **about)


def typed(text, **more):
    return {"comment": str(uuid.uuid4()), "text": text, **more}


@pytest.fixture
def done(gym):
    gym.session = gym.start()
    gym.log(gym.session)
    gym.url = f"/train/done/{gym.session}/"
    return gym


def test_a_coachs_comment_is_on_the_clients_session_page_and_on_today(done, phone):
    signed_in(done.coach).post(f"{done.url}comment/", typed("Two more next time."))
    page = text_of(phone.get(done.url))
    assert "Two more next time." in page
    assert "new Carla" in page
    today = text_of(phone.get("/train/"))
    assert "1 new" in today
    assert "Two more next time." in today


def test_a_clients_comment_is_new_to_the_coach_and_not_to_the_client(done, phone):
    phone.post(f"{done.url}comment/", typed("The bar felt heavy."))
    assert list(UnreadComment.objects.values_list("reader", flat=True)) == [done.coach.pk]
    assert "new Clemens" in text_of(signed_in(done.coach).get(done.url))
    assert "new You" not in text_of(phone.get(done.url))


def test_opening_a_page_reads_nothing_and_saying_so_reads_only_what_was_named(done, phone):
    first, second = say(done.client, done.coach), say(done.client, done.coach, "Rest on Sunday.")
    phone.get("/train/comments/")
    assert UnreadComment.objects.count() == 2
    phone.post("/comments/seen/", {"comment": [first.pk], "next": "/train/comments/"})
    assert UnreadComment.objects.get().comment == second


def test_nobody_marks_a_comment_as_read_for_another(done):
    comment = say(done.client, done.coach)
    for user in (done.coach, done.owner, done.outsider, done.other_client.user):
        signed_in(user).post("/comments/seen/", {"comment": [comment.pk]})
    assert UnreadComment.objects.get().reader == done.client.user


@pytest.mark.parametrize("names", ["https://elsewhere.example/", "//elsewhere.example", "javascript:alert(1)", ""])
def test_the_way_back_stays_on_this_site(phone, names):
    assert phone.post("/comments/seen/", {"next": names})["Location"] == "/"


def test_strangers_read_nothing(done):
    say(done.client, done.coach, "For Clemens only.")
    for user in (done.colleague, done.outsider, done.other_client.user, done.nobody):
        browser = signed_in(user)
        assert browser.get(done.url).status_code == 404
        assert browser.post(f"{done.url}comment/", typed("Hello")).status_code == 404
        assert browser.get(f"/api/v1/comments/?client={done.client.pk}").status_code == 404
        assert not Comment.objects.visible_to(user).exists()
    assert Comment.objects.count() == 1


def test_an_ended_engagement_sees_nothing_new_and_nothing_old(done):
    say(done.client, done.client.user, "Before the end.")
    yesterday = done.practice.today() - dt.timedelta(days=1)
    Engagement.objects.filter(client=done.client).update(ended_on=yesterday)
    with pytest.raises(Refused, match="Nobody trains you"):
        done.apply("comment.write", comment=uuid.uuid4(), text="After the end.")
    browser = signed_in(done.coach)
    assert browser.get(done.url).status_code == 404
    assert browser.get(f"/clients/{done.client.pk}/comments/").status_code == 404
    assert not Comment.objects.visible_to(done.coach).exists()


def test_a_coach_who_left_is_not_among_the_readers(done):
    Engagement.objects.create(coach=done.colleague_membership, client=done.client, started_on=done.practice.today())
    done.colleague_membership.ended_on = done.practice.today() - dt.timedelta(days=1)
    done.colleague_membership.save()
    say(done.client, done.client.user)
    assert [row.reader for row in UnreadComment.objects.all()] == [done.coach]


def test_listeners_hear_of_a_comment_once_it_is_committed(done, django_capture_on_commit_callbacks):
    heard = []

    def listen(sender, comment_id, reader_ids, **kwargs):
        heard.append((comment_id, reader_ids))

    comment_written.connect(listen)
    try:
        with django_capture_on_commit_callbacks() as callbacks:
            comment = say(done.client, done.coach)
        assert heard == []
        for callback in callbacks:
            callback()
    finally:
        comment_written.disconnect(listen)
    assert heard == [(comment.pk, [done.client.user_id])]


def test_a_double_tap_writes_it_once(done, phone):
    data = typed("Once.") | {"op": str(uuid.uuid4())}
    for _ in range(2):
        assert phone.post(f"{done.url}comment/", data).status_code == 302
        assert signed_in(done.coach).post(f"{done.url}comment/", typed("Twice?", comment=data["comment"]))
    assert sorted(Comment.objects.values_list("text", flat=True)) == ["Once.", "Twice?", "Twice?"]


@pytest.mark.parametrize("text", ["", "   \n ", "x" * 2001])
def test_empty_and_endless_comments_are_refused_beside_the_field(done, phone, text):
    for browser in (phone, signed_in(done.coach)):
        answer = browser.post(f"{done.url}comment/", typed(text))
        assert answer.status_code == 422
        assert answer.context["comment_form"].errors["text"]
    assert phone.post("/train/comments/", typed(text)).status_code == 422
    assert not Comment.objects.exists()


def test_what_is_typed_is_shown_as_text(done, phone):
    say(done.client, done.coach, "<script>alert(1)</script>")
    assert "<script>alert" not in phone.get("/train/comments/").content.decode()


def test_only_the_author_takes_back_and_the_text_is_gone(done, phone):
    comment = say(done.client, done.client.user, "Meant for somebody else.")
    url = f"/comments/{comment.pk}/take-back/"
    assert signed_in(done.coach).post(url).status_code == 403
    assert signed_in(done.colleague).post(url).status_code == 404
    phone.post(url)
    comment.refresh_from_db()
    assert comment.text == ""
    assert not UnreadComment.objects.exists()
    assert "taken back" in text_of(signed_in(done.coach).get(f"/clients/{done.client.pk}/comments/"))


def test_a_comment_sent_by_the_phones_outbox_arrives_once_and_asks_for_no_recompute(done, phone):
    done.client.recompute_requests.all().delete()
    sent = op("comment.write", NOW, comment=uuid.uuid4(), session=done.session, text="From the basement.")
    for _ in range(2):
        answer = phone.post("/api/v1/operations/", {"operations": [sent]}, content_type="application/json")
        assert answer.status_code == 200
    assert Comment.objects.get().text == "From the basement."
    assert not done.client.recompute_requests.exists()


def test_the_phone_cannot_comment_on_somebody_elses_session(done):
    data = {"comment": uuid.uuid4(), "session": done.session, "text": "Hello"}
    with pytest.raises(Refused, match="no such session"):
        done.apply("comment.write", client=done.other_client, **data)


def test_a_discarded_session_leaves_what_was_said(done):
    session = done.start()
    comment = say(done.client, done.coach, session=done.client.sessions.get(pk=session))
    done.apply("session.discard", session=session)
    comment.refresh_from_db()
    assert comment.session is None


def test_api_lists_comments_with_what_is_new(done, phone):
    say(done.client, done.coach)
    row = phone.get("/api/v1/comments/").json()["results"][0]
    assert (row["author"], row["text"], row["is_new"]) == ("Carla", "Well done.", True)


def test_the_list_is_paged_and_its_cost_does_not_grow(done, phone, django_assert_num_queries):
    say(done.client, done.coach, session=done.client.sessions.get(pk=done.session))
    counts = {}
    for url in ("/train/comments/", done.url, "/train/", "/api/v1/comments/"):
        with CaptureQueriesContext(connection) as few:
            phone.get(url)
        counts[url] = len(few)
    for n in range(30):
        say(done.client, done.coach, f"Number {n}.", session=done.client.sessions.get(pk=done.session))
    for url, count in counts.items():
        with django_assert_num_queries(count):
            phone.get(url)
    assert "Page 1 of 2" in text_of(phone.get("/train/comments/"))


def test_erasing_a_client_takes_all_that_was_said_with_them(done):
    say(done.client, done.client.user)
    say(done.client, done.coach)
    Session.objects.filter(client=done.client).delete()
    done.client.user.delete()
    assert not Comment.objects.exists()
    assert not UnreadComment.objects.exists()
