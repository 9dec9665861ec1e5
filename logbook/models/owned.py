"""Querysets of rows that a client owns: the client writes them, their coaches read them."""

from django.db import models

from accounts import access


class LoggedByClientQuerySet(models.QuerySet):
    """For models with a `client` foreign key."""

    def visible_to(self, user):
        return self.filter(client__in=access.clients_visible_to(user))

    def writable_by(self, user):
        client = access.client_of(user)
        return self.filter(client=client) if client else self.none()
