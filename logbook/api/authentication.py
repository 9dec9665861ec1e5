"""Who calls the API: the person signed in on the page itself."""

from rest_framework import authentication


class SessionAuthentication(authentication.SessionAuthentication):
    """Answer 401 to someone who is not signed in, so that a phone knows to keep its entries and ask for sign-in."""

    def authenticate_header(self, request) -> str:
        return "Session"
