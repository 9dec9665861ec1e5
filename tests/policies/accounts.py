"""The people room and allauth's own pages."""

import datetime as dt

from django.utils import timezone

from accounts.models import Cover, Invitation
from accounts.services.invitation import token_hash
from tests.policies import LIKE, LOGIN, MEMBERS, PUBLIC, SIGNED_IN, TRAIN_NOW, Policy, everyone, only

TOKEN = "a-link-that-was-sent-to-somebody-new-today"


def extend(world):
    """An open invitation of a client by `coach`, and the engagement and memberships that addresses point at."""
    world.invitation = Invitation.objects.create(
        practice=world.practice,
        email="new@example.org",
        invited_by=world.coach,
        token_hash=token_hash(TOKEN),
        expires_at=timezone.now() + dt.timedelta(days=7),
    )
    world.engagement = world.client.engagements.get()
    day = world.practice.today() + dt.timedelta(days=10)
    # The colleague's standing in begins later: today they are still a stranger to the client.
    world.cover = Cover.objects.create(
        practice=world.practice,
        away=world.coach_membership,
        by=world.colleague_membership,
        starts_on=day,
        ends_on=day,
        arranged_by=world.owner,
    )


# The cover that the walk points at begins later and is between two others.
NOT_THEIR_COVER = dict.fromkeys(LIKE, 404)


def signed_in(status):
    return everyone(status, anonymous=LOGIN)


def any_method(outcomes, **fields):
    """For views of allauth that decide before they look at the method."""
    return Policy(**{"post": outcomes, "put": outcomes, "patch": outcomes, "delete": outcomes, **fields})


# Sessions of the walk hold no recent password: what changes the means of signing in asks for it first (302), and
# people without a second factor are sent to where one is set up (302) or told that there is none (404).
CONFIRM_FIRST = any_method(signed_in(302), get=signed_in(302))
NOTHING_TO_SHOW = any_method(signed_in(404), get=signed_in(404))
STRANGERS_ONLY = everyone(302, anonymous=200)
# In its dispatch allauth tells a signed-in caller who sends JSON where to go instead, with 200 and no other content.
ENTRANCE = Policy(
    get=STRANGERS_ONLY,
    post=STRANGERS_ONLY,
    put=PUBLIC,
    patch=everyone(200, anonymous=405),
    delete=everyone(302, anonymous=405),
)

ALLAUTH = {
    "account_login": ENTRANCE,
    "account_signup": ENTRANCE,
    "account_logout": Policy(get=everyone(200, anonymous=302), post=everyone(302)),
    "account_inactive": Policy(get=PUBLIC),
    "account_email_verification_sent": Policy(get=PUBLIC),
    # A key that nobody was sent: the page says so, and confirming it is refused.
    "account_confirm_email": Policy(kwargs=lambda world: {"key": "unknown"}, get=PUBLIC, post=everyone(404)),
    "account_confirm_login_code": any_method(signed_in(302), get=signed_in(302)),
    "account_reauthenticate": Policy(get=SIGNED_IN, post=SIGNED_IN, put=SIGNED_IN),
    "account_email": Policy(get=SIGNED_IN, post=signed_in(302), put=SIGNED_IN),
    "account_change_password": Policy(get=SIGNED_IN, post=SIGNED_IN, put=SIGNED_IN),
    # Everyone here has a password, so they are sent to where it is changed.
    "account_set_password": any_method(signed_in(302), get=signed_in(302)),
    "account_reset_password": Policy(get=PUBLIC, post=PUBLIC, put=PUBLIC),
    "account_reset_password_done": Policy(get=PUBLIC),
    # A link that nobody was sent: the page says so and changes nothing, whatever the method.
    "account_reset_password_from_key": any_method(
        PUBLIC, get=PUBLIC, kwargs=lambda world: {"uidb36": "1", "key": "set-password"}
    ),
    "account_reset_password_from_key_done": Policy(get=PUBLIC),
    "mfa_index": Policy(get=SIGNED_IN),
    "mfa_authenticate": any_method(signed_in(302), get=signed_in(302)),
    "mfa_reauthenticate": CONFIRM_FIRST,
    "mfa_activate_totp": CONFIRM_FIRST,
    "mfa_deactivate_totp": NOTHING_TO_SHOW,
    "mfa_view_recovery_codes": Policy(get=signed_in(404)),
    "mfa_generate_recovery_codes": CONFIRM_FIRST,
    "mfa_download_recovery_codes": NOTHING_TO_SHOW,
    "javascript-catalog": Policy(get=PUBLIC),
}


def client_id(world):
    return {"client_id": world.client.pk}


def invitation_id(world):
    return {"invitation_id": world.invitation.pk}


# Those who may read the client but not write: the client. Those who may not know: everyone else.
WRITERS = only("coach", "owner", client=403)

POLICIES = ALLAUTH | {
    "home": Policy(get=signed_in(302) | {"nobody": 200}),
    "profile": Policy(
        get=SIGNED_IN, post=signed_in(302), data=lambda world: {"name": "New", "time_zone": "UTC", "load_unit": "lb"}
    ),
    # It ends at sign-in, which looks the same as being sent there.
    "sign-out-everywhere": Policy(post=everyone(LOGIN)),
    "practice": Policy(
        get=only(*MEMBERS),
        post=only("owner", "outsider", status=302, coach=403, colleague=403),
        data=lambda world: {"name": "New name", "time_zone": "UTC"},
    ),
    "practice-start": Policy(
        get=everyone(200, anonymous=LOGIN, **dict.fromkeys(MEMBERS, 302)),
        post=signed_in(302),
        data=lambda world: {"name": "Own practice"},
    ),
    # Both owners are the only one of their practice: they are told so (422) instead of leaving (302).
    "membership-leave": Policy(
        get=only(*MEMBERS), post=only("coach", "colleague", status=302, owner=422, outsider=422)
    ),
    "hand-over": Policy(
        kwargs=lambda world: {"membership_id": world.coach_membership.pk},
        get=only("owner", coach=403, colleague=403),
        post=only("owner", status=302, coach=403, colleague=403),
        data=lambda world: {"clients": [world.client.pk], "coach": world.colleague_membership.pk},
    ),
    "cover-new": Policy(
        get=only(*MEMBERS),
        # Whoever may arrange only their own absence is taken for the one who is away.
        post=only("coach", "owner", *LIKE, status=302, colleague=422, outsider=422),
        data=lambda world: {
            "away": world.coach_membership.pk,
            "by": world.colleague_membership.pk,
            "starts_on": world.practice.today() + dt.timedelta(days=20),
            "ends_on": world.practice.today() + dt.timedelta(days=21),
        },
    ),
    "cover-end": Policy(
        kwargs=lambda world: {"cover_id": world.cover.pk},
        get=only("coach", "owner", colleague=403, **NOT_THEIR_COVER),
        post=only("coach", "owner", status=302, colleague=403, **NOT_THEIR_COVER),
    ),
    "audit": Policy(get=only("owner", "outsider", coach=403, colleague=403)),
    "audit-own": Policy(get=only("client", "other_client")),
    "membership-edit": Policy(
        kwargs=lambda world: {"membership_id": world.coach_membership.pk},
        get=only("owner", coach=403, colleague=403),
        post=only("owner", status=302, coach=403, colleague=403),
        data=lambda world: {"role": "owner"},
    ),
    "coach-invite": Policy(
        get=only("owner", "outsider", coach=403, colleague=403),
        post=only("owner", "outsider", status=302, coach=403, colleague=403),
        data=lambda world: {"email": "somebody@example.org"},
    ),
    "client-invite": Policy(
        get=only(*MEMBERS), post=only(*MEMBERS, status=302), data=lambda world: {"email": "somebody@example.org"}
    ),
    "invitation-detail": Policy(authors_only=True, kwargs=invitation_id, get=only("coach", "owner")),
    "invitation-resend": Policy(authors_only=True, kwargs=invitation_id, post=only("coach", "owner", status=302)),
    "invitation-withdraw": Policy(authors_only=True, kwargs=invitation_id, post=only("coach", "owner", status=302)),
    # The secret in the address is the permission. POST: a stranger's empty form comes back; someone signed in joins,
    # but for the client whom this coach trains already, and who is told so.
    "invitation-accept": Policy(
        kwargs=lambda world: {"token": TOKEN}, get=PUBLIC, post=everyone(302, anonymous=200, client=200)
    ),
    "client-list": Policy(get=only(*MEMBERS)),
    "client-edit": Policy(
        kwargs=client_id,
        get=WRITERS,
        post=only("coach", "owner", status=302, client=403),
        data=lambda world: {"training_status": "advanced"},
    ),
    "client-coach": Policy(
        kwargs=client_id,
        get=only("owner", client=403, coach=403),
        post=only("owner", status=302, client=403, coach=403),
        data=lambda world: {"coach": world.colleague_membership.pk},
    ),
    "engagement-end": Policy(
        kwargs=lambda world: {"engagement_id": world.engagement.pk},
        # Another who trains the client sees that the engagement is there, and does not end it.
        get=only("coach", "owner", "client", **dict.fromkeys(TRAIN_NOW, 403)),
        post=only("coach", "owner", "client", status=302, **dict.fromkeys(TRAIN_NOW, 403)),
    ),
}
