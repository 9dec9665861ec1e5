"""The audit: who looked at whose pages and who changed what, for the owner and for clients about themselves."""

import datetime as dt

import pytest
from django.db import DatabaseError
from django.urls import reverse
from django.utils import timezone

from accounts.audit.middleware import OWN_ACCOUNT
from accounts.audit.record import forget_before, record_look
from accounts.audit.words import WORDS
from accounts.models import AuditEntry
from coaching.sweep import sweep
from tests.policies import collect

BACKEND = "allauth.account.auth_backends.AuthenticationBackend"


def signed_in(client, user):
    client.force_login(user, backend=BACKEND)
    return client


def entries():
    return list(AuditEntry.objects.order_by("pk").values_list("actor__name", "client__user__name", "kind", "page"))


def test_looking_at_a_client_is_kept_once_a_day(world, client):
    signed_in(client, world.coach)
    page = reverse("client-edit", args=[world.client.pk])
    client.get(page)
    client.get(page)
    assert entries() == [("Carla", "Clemens", "saw", "client-edit")]
    AuditEntry.objects.update(day=timezone.now().date() - dt.timedelta(days=1))
    client.get(page)
    assert len(entries()) == 2


def test_a_change_is_kept_each_time(world, client):
    signed_in(client, world.coach)
    page = reverse("client-edit", args=[world.client.pk])
    client.post(page, {"training_status": "advanced"})
    client.post(page, {"training_status": "novice"})
    assert entries() == [("Carla", "Clemens", "changed", "client-edit")] * 2


def test_what_was_refused_is_not_kept(world, client):
    signed_in(client, world.colleague)
    assert client.get(reverse("client-edit", args=[world.client.pk])).status_code == 404
    assert entries() == []


def test_what_coaches_do_with_their_own_account_is_not_kept(world, client):
    signed_in(client, world.coach)
    wrong = {"oldpassword": "not this one", "password1": "x", "password2": "y"}
    assert client.post(reverse("account_change_password"), wrong).status_code == 200
    assert entries() == []


@pytest.mark.parametrize("name", ["client-edit", "client-coach", "client-invite", "membership-edit", "practice"])
def test_a_form_that_came_back_with_its_errors_is_not_kept_as_a_change(world, client, name):
    signed_in(client, world.owner)
    known = {
        "client-edit": [world.client.pk],
        "client-coach": [world.client.pk],
        "membership-edit": [world.coach_membership.pk],
    }
    assert client.post(reverse(name, args=known.get(name, [])), {"name": " "}).status_code == 422
    assert not AuditEntry.objects.filter(kind=AuditEntry.Kind.CHANGED).exists()


def test_what_clients_do_with_their_own_is_not_kept(world, client):
    signed_in(client, world.client.user)
    client.get(reverse("profile"))
    client.post(reverse("engagement-end", args=[world.client.engagements.get().pk]))
    assert entries() == []


def test_the_interface_for_programs_is_kept_too(world, client):
    signed_in(client, world.coach)
    assert client.get(reverse("api-v1:session-list"), {"client": world.client.pk}).status_code == 200
    assert entries() == [("Carla", "Clemens", "saw", "api-v1:session-list")]


def test_owner_reads_and_sifts_the_audit_of_their_practice_only(world, client):
    signed_in(client, world.coach).get(reverse("client-edit", args=[world.client.pk]))
    signed_in(client, world.outsider).get(reverse("client-edit", args=[world.outside_client.pk]))
    signed_in(client, world.owner)
    text = client.get(reverse("audit")).text
    assert "Clemens" in text
    assert "Oskar" not in text
    assert "looked at: the client’s record" in text.replace("&#x27;", "’")
    assert "Nothing fits" in client.get(reverse("audit"), {"q": "cosima"}).text
    assert "Clemens" in client.get(reverse("audit"), {"coach": world.coach_membership.pk, "kind": "saw"}).text
    assert "Nothing fits" in client.get(reverse("audit"), {"kind": "changed"}).text
    assert "Nothing fits" in client.get(reverse("audit"), {"day": "2020-01-01"}).text
    assert "Clemens" in client.get(reverse("audit"), {"day": "nonsense", "page": "x"}).text


def test_client_reads_who_looked_at_their_training(world, client):
    signed_in(client, world.coach).get(reverse("client-edit", args=[world.client.pk]))
    signed_in(client, world.colleague).get(reverse("client-edit", args=[world.other_client.pk]))
    text = signed_in(client, world.client.user).get(reverse("audit-own")).text
    assert "Carla" in text
    assert "Colin" not in text


def test_an_answer_is_not_lost_when_the_audit_cannot_be_written(world, client, monkeypatch, caplog):
    def broken(**kwargs):
        raise DatabaseError("disk full")

    monkeypatch.setattr("accounts.audit.middleware.record_look", broken)
    signed_in(client, world.coach)
    assert client.get(reverse("client-edit", args=[world.client.pk])).status_code == 200
    assert "could not be written" in caplog.text


def test_old_entries_are_forgotten_by_the_sweep(world, settings):
    record_look(membership=world.coach_membership, clients=[world.client.pk], page="client-page")
    AuditEntry.objects.update(day=timezone.now().date() - dt.timedelta(days=settings.AUDIT_KEEP_DAYS + 1))
    record_look(membership=world.coach_membership, clients=[world.client.pk], page="client-page")
    sweep()
    assert AuditEntry.objects.count() == 1
    assert forget_before(now=timezone.now(), keep_days=settings.AUDIT_KEEP_DAYS) == 0


def test_an_entry_costs_one_query_whatever_the_history(world, django_assert_num_queries):
    for _ in range(2):
        with django_assert_num_queries(1):
            record_look(membership=world.coach_membership, clients=[world.client.pk], page="client-page")


# About the person's own account, not about the practice or a client.
OWN = {"letters-stop", "profile", "practice-start", "invitation-accept", "sign-out-everywhere"}


def lets(outcomes, role) -> bool:
    outcome = (outcomes or {}).get(role)
    return isinstance(outcome, int) and outcome < 400


def needs_words(policy) -> bool:
    """Say whether a coach changes something there, or sees what the colleague may not."""
    writes = (policy.post, policy.put, policy.patch, policy.delete)
    changes = any(lets(outcomes, role) for outcomes in writes for role in ("coach", "owner"))
    return changes or (lets(policy.get, "coach") and not lets(policy.get, "colleague"))


def test_every_page_that_the_audit_may_name_has_words():
    named = {name for name, policy in collect().items() if needs_words(policy)}
    missing = sorted(name for name in named - OWN - WORDS.keys() if not name.startswith(OWN_ACCOUNT))
    assert missing == [], "add words to the audit_pages.py of the room"


@pytest.mark.parametrize("name", sorted(WORDS))
def test_no_words_for_a_page_that_is_gone(name):
    assert name in collect()
