"""Where the answer stands: at the desk for a coach, under the client's own pages for the client."""

from django.urls import reverse

from accounts.models import Client


def why_link(kind: str, *key: object, client_id: int | None = None) -> str:
    """Return the address of an answer; without `client_id` that of a client's own."""
    path = "/".join(str(one) for one in key)
    if client_id is None:
        return reverse("own-why", args=[kind, path])
    return reverse("why", args=[client_id, kind, path])


class Reader:
    """Who asks about whom: the client, the reader's unit, and whether the reader is at the desk."""

    def __init__(self, client: Client, unit: str, *, at_desk: bool) -> None:
        self.client, self.unit, self.at_desk = client, unit, at_desk

    def why(self, kind: str, *key: object) -> str:
        return why_link(kind, *key, client_id=self.client.pk if self.at_desk else None)

    def session(self, pk: object) -> str:
        return reverse("performed-session", args=[pk])
