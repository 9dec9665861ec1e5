"""Keep and drop ways to sift the week."""

from django.db import transaction

from accounts.models import Membership
from coaching.models import SavedView

MOST_VIEWS = 20


class TooManyViews(Exception):
    """There are MOST_VIEWS already, and the name is a new one."""


@transaction.atomic
def saved_view_save(*, membership: Membership, name: str, query: str) -> SavedView:
    """Keep a view; the same name again replaces it. Raises TooManyViews."""
    Membership.objects.select_for_update(no_key=True).get(pk=membership.pk)
    others = SavedView.objects.filter(membership=membership).exclude(name=name)
    if others.count() >= MOST_VIEWS:
        raise TooManyViews
    return SavedView.objects.update_or_create(membership=membership, name=name, defaults={"query": query})[0]


@transaction.atomic
def saved_view_remove(*, view: SavedView) -> None:
    """Drop a view."""
    view.delete()
