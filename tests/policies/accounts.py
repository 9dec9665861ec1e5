"""The people room and allauth's own pages."""

from tests.policies import Policy, everyone

# force_login in the walk leaves no record of a recent password, so what needs one sends the person to confirm it.
CONFIRMS = everyone(302, anonymous="to sign-in")


def form_for_strangers(**fields):
    """A form of allauth for people who are not signed in: those who are, are sent home. PUT is POST in its views."""
    outcomes = everyone(302, anonymous=200)
    return Policy(get=outcomes, post=outcomes, put=outcomes, **fields)


POLICIES = {
    "account_login": Policy(),
    "account_logout": Policy(),
    "account_inactive": Policy(),
    "account_signup": Policy(),
    "account_reauthenticate": Policy(),
    "account_email": Policy(),
    "account_email_verification_sent": Policy(),
    "account_change_password": Policy(),
    "account_set_password": Policy(),
    "account_reset_password": Policy(),
    "account_confirm_login_code": Policy(),
    "account_reset_password_from_key_done": Policy(),
    "account_reset_password_done": Policy(),
    "mfa_index": Policy(),
    "mfa_authenticate": Policy(),
    "mfa_reauthenticate": Policy(),
    "mfa_activate_totp": Policy(),
    "mfa_deactivate_totp": Policy(),
    "mfa_view_recovery_codes": Policy(),
    "mfa_generate_recovery_codes": Policy(),
    "mfa_download_recovery_codes": Policy(),
    "javascript-catalog": Policy(),
}
