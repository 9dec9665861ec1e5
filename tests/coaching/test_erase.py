"""Erasing leaves nothing of a client: every column of every table is searched."""

import pytest
from axes.models import AccessLog
from django.apps import apps
from django.conf import settings
from django.contrib.sessions.models import Session as SignIn
from django.test import Client as Browser
from django.urls import reverse
from django.utils import timezone

from accounts.models import AuditEntry, Client, Membership, User
from coaching.models import CoachNote, Erasure
from coaching.recompute import run
from coaching.services.erase import client_erase
from logbook.models import SetLog
from programs.models import DraftRun, Fitting, Program
from tests.coaching import factories as make
from tests.coaching.once import once

pytestmark = pytest.mark.django_db


def fill(world, exercises):
    """Give the client rows of every kind that the tests' factories make, and another client beside them."""
    make.train(world.client, world.coach, exercises, weeks=12, fade=2, seed=3)
    make.report_pain(world.client.sessions.order_by("-date").first(), exercises["curl"], 6)
    make.train(world.other_client, world.colleague, exercises, weeks=2, seed=4)
    for client in (world.client, world.other_client):
        run.work_off(client.pk)
    CoachNote.objects.create(client=world.client, author=world.coach, text="Clemens sleeps badly.")
    DraftRun.objects.create(
        practice=world.practice, author=world.coach, client=world.client, ask={}, queued_at=timezone.now()
    )
    AccessLog.objects.create(username=world.client.user.email, ip_address="192.0.2.7")


made, copied, world, exercises = once(fill)


@pytest.fixture
def full(world):
    """The client has also signed in, and their coach has looked at them."""
    browser = Browser()
    browser.force_login(world.client.user, backend=settings.AUTHENTICATION_BACKENDS[-1])
    coach = signed_in(world.coach)
    assert coach.get(reverse("client-page", args=[world.client.pk])).status_code == 200
    assert AuditEntry.objects.filter(client=world.client).exists()
    return world


def signed_in(user):
    browser = Browser()
    browser.force_login(user, backend=settings.AUTHENTICATION_BACKENDS[-1])
    return browser


def traces(words):
    """Return every (table, column) that holds one of the words, sign-ins decoded."""
    found = set()
    for model in apps.get_models(include_auto_created=True):
        for row in model._base_manager.all():
            for field in model._meta.local_concrete_fields:
                text = str(getattr(row, field.attname)).casefold()
                if any(word in text for word in words):
                    found.add((model._meta.label, field.name))
    for row in SignIn.objects.all():
        if any(word in str(row.get_decoded()).casefold() for word in words):
            found.add(("sessions.Session", "decoded"))
    return found


def test_erasing_leaves_no_name_no_address_and_no_id_of_the_client(full):
    client = full.client
    sets = list(SetLog.objects.filter(client=client).values_list("pk", flat=True))
    words = ["clemens", client.user.email, *map(str, sets[:20])]
    assert len(traces(words)) > 5, "the search must find the client before"
    others = SetLog.objects.filter(client=full.other_client).count()
    client_erase(client=client, by=full.owner)
    assert traces(words) == set()
    assert SetLog.objects.filter(client=full.other_client).count() == others > 0


def test_erasing_leaves_no_row_that_points_at_the_client_or_their_account(full):
    client, user = full.client.pk, full.client.user.pk
    client_erase(client=full.client, by=full.owner)
    for model in apps.get_models():
        for field in model._meta.local_fields:
            if field.related_model in (Client, User):
                pk = client if field.related_model is Client else user
                assert not model._base_manager.filter(**{field.attname: pk}).exists(), field


def test_what_was_chosen_for_a_client_goes_and_for_others_stays(full):
    program = Program.objects.create(practice=full.practice, author=full.coach, name="Arms")
    gone, stays = str(full.client.pk), str(full.other_client.pk)
    fitting = Fitting.objects.create(
        program=program,
        author=full.coach,
        starts_on=full.practice.today(),
        weekdays=[0],
        choices={gone: {"x": {"accept": False}}, stays: {}},
    )
    fitting.clients.set([full.client, full.other_client])
    client_erase(client=full.client, by=full.owner)
    fitting.refresh_from_db()
    assert set(fitting.choices) == {stays}


def test_the_proof_counts_what_went_and_names_nobody(full):
    sets = SetLog.objects.filter(client=full.client).count()
    erasure = client_erase(client=full.client, by=full.owner)
    assert erasure.counts["logbook.SetLog"] == sets
    assert erasure.counts["accounts.User"] == erasure.counts["accounts.Client"] == 1
    text = signed_in(full.owner).get(reverse("erasure", args=[erasure.pk])).text
    assert "logbook.SetLog" in text
    assert "Clemens" not in text


def test_a_client_who_also_coaches_keeps_their_account(full):
    Membership.objects.create(
        practice=full.practice, user=full.client.user, role="coach", started_on=full.practice.today()
    )
    client_erase(client=full.client, by=full.owner)
    assert User.objects.filter(pk=full.client.user.pk).exists()
    assert not Client.objects.filter(user=full.client.user).exists()


def test_the_page_asks_for_the_name_and_erases_only_then(full):
    browser, page = signed_in(full.owner), reverse("client-erase", args=[full.client.pk])
    assert browser.post(page, {"name": "Somebody"}).status_code == 422
    assert Client.objects.filter(pk=full.client.pk).exists()
    response = browser.post(page, {"name": "clemens"})
    assert response.url == reverse("erasure", args=[Erasure.objects.get().pk])
    assert not Client.objects.filter(pk=full.client.pk).exists()
    # The audit keeps that the owner did it, and not to whom.
    entry = AuditEntry.objects.get(page="client-erase", kind="changed")
    assert (entry.actor, entry.client) == (full.owner, None)


def test_a_client_takes_all_of_their_own_out(full):
    response = signed_in(full.client.user).post(reverse("own-export"))
    data = b"".join(response.streaming_content)
    assert response["Content-Type"] == "application/zip"
    assert "clemens" in response["Content-Disposition"]
    assert data[:2] == b"PK"


def test_taking_a_client_out_is_kept_in_the_audit(full):
    signed_in(full.coach).post(reverse("client-export", args=[full.client.pk]))
    assert AuditEntry.objects.filter(page="client-export", client=full.client, actor=full.coach).exists()
