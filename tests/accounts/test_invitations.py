"""Inviting: who may, what is stored, what is sent, and what the pages show."""

import datetime as dt
import hashlib

import pytest
from django.core import mail
from django.urls import reverse
from django.utils import timezone

from accounts.models import AuditEntry, Invitation, Membership
from accounts.services import Refused
from accounts.services.invitation import invitation_create, invitation_resend, invitation_withdraw
from tests.accounts.helpers import paths

BASE = "https://example.org/"


@pytest.fixture
def invite(world):
    """Invite someone as `coach`; keyword arguments replace the usual ones."""

    def invite(**changes):
        fields = {
            "inviter": world.coach_membership,
            "kind": "client",
            "email": "New@Example.org",
            "name": "Newt",
            "base_url": BASE,
        }
        return invitation_create(**fields | changes)

    return invite


def token_of(issued) -> str:
    return issued.link.rstrip("/").rsplit("/", 1)[1]


def test_database_holds_only_the_hash_of_the_links_secret(invite):
    issued = invite()
    row = Invitation.objects.values().get()
    token = token_of(issued)
    assert len(token) >= 43  # 32 random bytes
    assert row["token_hash"] == hashlib.sha256(token.encode()).hexdigest()
    assert token not in str(row)


def test_link_is_valid_for_seven_days(invite):
    invitation = invite().invitation
    assert abs(invitation.expires_at - timezone.now() - dt.timedelta(days=7)) < dt.timedelta(minutes=1)


def test_letter_goes_out_after_commit_in_text_and_html(invite, django_capture_on_commit_callbacks):
    with django_capture_on_commit_callbacks(execute=True):
        issued = invite()
        assert mail.outbox == []
    letter = mail.outbox[0]
    assert letter.to == ["new@example.org"]
    assert letter.subject == "Carla invites you to Rowan Yard Strength"
    html, mime = letter.alternatives[0]
    assert mime == "text/html"
    for body in (letter.body, html):
        assert issued.link in body
        assert "Newt" in body
        assert "7 days" in body


def test_mail_server_that_fails_does_not_undo_the_invitation(
    invite, settings, monkeypatch, django_capture_on_commit_callbacks
):
    def fail(self, *args):
        raise OSError("no mail server")

    monkeypatch.setattr("django.core.mail.EmailMultiAlternatives.send", fail)
    with django_capture_on_commit_callbacks(execute=True):
        invite()
    assert Invitation.objects.get().state == "open"


def test_only_an_owner_invites_coaches(invite, world):
    with pytest.raises(Refused, match="owner"):
        invite(kind="coach")
    assert invite(kind="coach", inviter=world.owner.memberships.get()).invitation.kind == "coach"


def test_person_who_is_already_trained_by_the_inviter_is_not_invited_again(invite, world):
    with pytest.raises(Refused, match="already"):
        invite(email=world.client.user.email.upper())


def test_coach_of_the_practice_is_not_invited_as_coach_again(invite, world):
    with pytest.raises(Refused, match="already"):
        invite(kind="coach", email=world.colleague.email, inviter=world.owner.memberships.get())


def test_inviting_someone_of_another_practice_tells_the_inviter_nothing(invite, world):
    assert invite(email=world.outside_client.user.email).invitation.state == "open"
    assert (
        invite(kind="coach", email=world.outsider.email, inviter=world.owner.memberships.get()).invitation.state
        == "open"
    )


def test_second_invitation_of_the_same_person_points_to_the_open_one(invite):
    invite()
    with pytest.raises(Refused, match="Send that one again"):
        invite()
    Invitation.objects.update(expires_at=timezone.now() - dt.timedelta(seconds=1))
    invite()


def test_sending_again_kills_the_old_link_and_renews_the_week(invite, client):
    first = invite()
    Invitation.objects.update(expires_at=timezone.now() - dt.timedelta(days=1))
    second = invitation_resend(invitation=first.invitation, base_url=BASE)
    assert client.get(reverse("invitation-accept", args=[token_of(first)])).status_code == 404
    assert client.get(reverse("invitation-accept", args=[token_of(second)])).status_code == 200


@pytest.mark.parametrize("field", ["accepted_at", "withdrawn_at"])
def test_spent_invitation_is_neither_sent_again_nor_withdrawn(invite, field):
    invitation = invite().invitation
    Invitation.objects.update(**{field: timezone.now()})
    with pytest.raises(Refused):
        invitation_resend(invitation=invitation, base_url=BASE)
    with pytest.raises(Refused):
        invitation_withdraw(invitation=invitation)


def test_link_is_shown_to_the_coach_once(world, client):
    client.force_login(world.coach, backend="allauth.account.auth_backends.AuthenticationBackend")
    response = client.post(reverse("client-invite"), {"email": "new@example.org", "name": "Newt"})
    link = f"http://testserver{reverse('invitation-accept', args=['x'])[:-2]}"
    assert link in client.get(response.url).text
    assert link not in client.get(response.url).text


def test_form_keeps_what_was_typed_when_refused(world, client):
    client.force_login(world.coach, backend="allauth.account.auth_backends.AuthenticationBackend")
    response = client.post(reverse("client-invite"), {"email": world.client.user.email, "name": "Typed"})
    assert response.status_code == 422
    assert list(response.context["form"].errors) == ["email"]
    assert 'value="Typed"' in response.text
    assert not Invitation.objects.exists()


def test_inviting_again_leads_to_the_invitation_that_is_open(world, client, invite):
    client.force_login(world.coach, backend="allauth.account.auth_backends.AuthenticationBackend")
    invitation = invite().invitation
    response = client.post(reverse("client-invite"), {"email": invitation.email, "name": "Newt"}, follow=True)
    assert response.redirect_chain == [(reverse("invitation-detail", args=[invitation.pk]), 302)]
    assert "Send that one again" in response.text
    assert reverse("invitation-resend", args=[invitation.pk]) in response.text
    assert Invitation.objects.count() == 1
    # It is not in the record as a change, for nothing was changed.
    assert not AuditEntry.objects.filter(kind=AuditEntry.Kind.CHANGED).exists()


def test_pages_send_again_and_withdraw(world, client, invite, django_capture_on_commit_callbacks):
    client.force_login(world.coach, backend="allauth.account.auth_backends.AuthenticationBackend")
    invitation = invite().invitation
    with django_capture_on_commit_callbacks(execute=True):
        client.post(reverse("invitation-resend", args=[invitation.pk]))
    invitation.refresh_from_db()
    sent = paths(mail.outbox[-1])[0].strip("/").split("/")[-1]
    assert invitation.token_hash == hashlib.sha256(sent.encode()).hexdigest()
    client.post(reverse("invitation-withdraw", args=[invitation.pk]))
    invitation.refresh_from_db()
    assert invitation.state == "withdrawn"
    page = client.get(reverse("invitation-detail", args=[invitation.pk])).text
    assert "withdrawn" in page
    assert reverse("invitation-resend", args=[invitation.pk]) not in page


def test_practice_page_shows_invitations_in_pages_with_their_state(world, client, invite):
    client.force_login(world.owner, backend="allauth.account.auth_backends.AuthenticationBackend")
    for number in range(25):
        invite(email=f"n{number}@example.org", name="")
    Invitation.objects.filter(email="n24@example.org").update(expires_at=timezone.now() - dt.timedelta(days=1))
    first = client.get(reverse("practice"))
    assert "expired" in first.text
    assert "Page 1 of 2" in first.text
    assert "n0@example.org" not in first.text
    assert "n0@example.org" in client.get(reverse("practice"), {"page": 2}).text


def test_client_list_shows_the_open_ones_of_the_coach(world, client, invite):
    invite()
    invite(inviter=world.colleague_membership, email="theirs@example.org", name="Theirs")
    client.force_login(world.coach, backend="allauth.account.auth_backends.AuthenticationBackend")
    page = client.get(reverse("client-list")).text
    assert "Newt" in page
    assert "Theirs" not in page


def test_invitation_of_a_coach_who_left_is_withdrawn(world, invite):
    from accounts.services.membership import membership_end

    invitation = invite().invitation
    membership_end(membership=Membership.objects.get(pk=world.coach_membership.pk))
    invitation.refresh_from_db()
    assert invitation.state == "withdrawn"
