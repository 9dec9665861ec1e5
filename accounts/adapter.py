"""How allauth behaves in this house."""

from allauth.account.adapter import DefaultAccountAdapter


class AccountAdapter(DefaultAccountAdapter):
    """Sign-up makes a practice and its owner; everyone else comes by invitation."""
