"""Where the answer stands: at the desk for a coach, under the client's own pages for the client."""

from functools import cache
from urllib.parse import quote

from django.urls import get_script_prefix, reverse

from accounts.models import Client


@cache
def _form(name: str, _script_prefix: str) -> str:
    """Return the address with places to fill: a page holds hundreds of these links, and `reverse` takes its time."""
    if name == "own-why":
        return reverse(name, args=["kind", "path"]).replace("/kind/path/", "/{kind}/{path}/")
    return reverse(name, args=[0, "kind", "path"]).replace("/0/why/kind/path/", "/{client}/why/{kind}/{path}/")


def why_link(kind: str, *key: object, client_id: int | None = None) -> str:
    """Return the address of an answer; without `client_id` that of a client's own."""
    path = quote("/".join(str(one) for one in key))
    form = _form("own-why" if client_id is None else "why", get_script_prefix())
    return form.format(client=client_id, kind=kind, path=path)


class Reader:
    """Who asks about whom: the client, the reader's unit, and whether the reader is at the desk."""

    def __init__(self, client: Client, unit: str, *, at_desk: bool) -> None:
        self.client, self.unit, self.at_desk = client, unit, at_desk

    def why(self, kind: str, *key: object) -> str:
        return why_link(kind, *key, client_id=self.client.pk if self.at_desk else None)

    def session(self, pk: object) -> str:
        return reverse("performed-session", args=[pk])
