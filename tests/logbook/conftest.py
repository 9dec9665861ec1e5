import datetime as dt
import uuid
from types import SimpleNamespace

import pytest
from django.conf import settings
from django.test import Client as Browser

from logbook.services.operations import operation_apply
from tests.logbook.factories import NOW, make_exercise, make_groups, op, set_data


@pytest.fixture
def gym(world):
    """`world` with two exercises, muscle groups, and short-hands: `apply` carries out, `start` begins a session."""
    make_groups()
    world.curl = make_exercise("curl", "barbell")
    world.row = make_exercise("one-arm-row", "dumbbell", laterality="single")

    def apply(kind, at=NOW, *, client=None, now=None, id=None, **data):
        operation = op(kind, at, id, **data)
        return operation_apply(client=client or world.client, operation=operation, now=now or max(NOW, at))

    def start(at=NOW, **fields):
        session = fields.pop("session", None) or uuid.uuid4()
        apply("session.start", at, session=session, **fields)
        return session

    def log(session, exercise=None, at=NOW, **data):
        values = set_data(session, exercise or world.curl, **data)
        apply("set.record", at, **values)
        return values["set"]

    world.apply, world.start, world.log = apply, start, log
    world.later = lambda minutes=1: NOW + dt.timedelta(minutes=minutes)
    return SimpleNamespace(**vars(world))


def signed_in(user) -> Browser:
    """A browser in which `user` has signed in."""
    browser = Browser()
    browser.force_login(user, backend=settings.AUTHENTICATION_BACKENDS[-1])
    return browser


@pytest.fixture
def phone(gym):
    """The client's own browser."""
    return signed_in(gym.client.user)
