"""The people of the tests: two practices, so that every page can be asked for by each kind of stranger."""

import contextlib
import datetime as dt
import os
import shutil
from collections.abc import Iterator
from types import SimpleNamespace

import pytest
import pytest_django
from django.conf import settings
from django.core.cache import cache
from django.db import transaction
from django.test import SimpleTestCase, override_settings
from django.utils import timezone

from accounts.models import Client, Engagement, Membership, Practice, User
from logbook.services.screening import screening_answer
from periodization.screening import QUESTIONS

pytest_plugins = ["tests.services", "tests.programs.library_fixture", "tests.programs.plan_fixture"]

# The database that scripts/test has migrated once for all workers: SQLite's file, or PostgreSQL's name.
ON_SQLITE = settings.DATABASES["default"]["ENGINE"].endswith("sqlite3")
MIGRATED = os.environ.get(f"SINEWRIGHT_TEST_MIGRATED_{'SQLITE' if ON_SQLITE else 'POSTGRES'}")
QUICK_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
TODAY = dt.datetime.now(dt.UTC).date()
PASSWORD = "correct horse battery"


DATABASE = {"db", "transactional_db", "live_server", "library_rows"}


# Where such tests may stand: scripts/test looks for them nowhere else.
PLACES = {
    "browser": ("tests/browser/",),
    "services": ("tests/browser/", "tests/faults/", "tests/scripts/"),
}


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark what may use the database; pytest-django refuses it to all others, so that their engine does not matter."""
    for item in items:
        for mark, places in PLACES.items():
            if item.get_closest_marker(mark) and not item.nodeid.startswith(places):
                raise pytest.UsageError(f"{item.nodeid} is marked {mark}, and stands in none of {', '.join(places)}")
        case = getattr(item, "cls", None)
        marked = item.get_closest_marker("django_db") or (case and issubclass(case, SimpleTestCase))
        if marked or DATABASE & set(getattr(item, "fixturenames", ())):
            item.add_marker("database")


def make_user(name: str, **fields: object) -> User:
    return User.objects.create_user(email=f"{name}@example.org", name=name.title(), password=PASSWORD, **fields)


def make_member(practice: Practice, name: str, role: str = "coach") -> Membership:
    return Membership.objects.create(
        practice=practice, user=make_user(name), role=role, started_on=TODAY - dt.timedelta(days=400)
    )


def make_client(
    practice: Practice, name: str, coach: Membership | None = None, screened: bool = True, **fields: object
) -> Client:
    """Make a client who has answered the screening questions, nothing standing out, unless `screened` is False."""
    client = Client.objects.create(practice=practice, user=make_user(name), **fields)
    if screened:
        no = dict.fromkeys(QUESTIONS, False)
        screening_answer(client=client, answers={**no, "active": True}, at=timezone.now())
    if coach:
        Engagement.objects.create(coach=coach, client=client, started_on=TODAY - dt.timedelta(days=300))
    return client


def make_world() -> SimpleNamespace:
    """`coach` trains `client`; `colleague` (same practice) trains `other_client`; `owner` owns the practice;
    `outsider` coaches elsewhere; `nobody` has signed up and belongs nowhere."""
    here = Practice.objects.create(name="Rowan Yard Strength", require_coach_mfa=False)
    there = Practice.objects.create(name="Far Bank Training", require_coach_mfa=False)
    owner = make_member(here, "olive", "owner")
    coach = make_member(here, "carla")
    colleague = make_member(here, "colin")
    outsider = make_member(there, "otto", "owner")
    return SimpleNamespace(
        practice=here,
        owner=owner.user,
        coach=coach.user,
        coach_membership=coach,
        colleague=colleague.user,
        colleague_membership=colleague,
        outsider=outsider.user,
        outsider_membership=outsider,
        nobody=make_user("nadia"),
        client=make_client(here, "clemens", coach),
        other_client=make_client(here, "cosima", colleague),
        outside_client=make_client(there, "oskar", outsider),
    )


@pytest.fixture(scope="session")
def django_db_modify_db_settings(django_db_modify_db_settings_parallel_suffix, tmp_path_factory) -> None:
    """Keep SQLite's test database in a file, as a practice does, and begin from a migrated one when there is one.

    In memory all threads of the live server would share one connection: requests that overlap, as a phone's do, then
    fail with "database table is locked" or fall into each other's transactions.
    """
    test = settings.DATABASES["default"].setdefault("TEST", {})
    if ON_SQLITE:
        test["NAME"] = str(tmp_path_factory.mktemp("database") / "test.sqlite3")
        if MIGRATED:
            shutil.copyfile(MIGRATED, test["NAME"])
    elif MIGRATED:
        test["TEMPLATE"] = MIGRATED


@pytest.fixture(scope="session")
def django_db_keepdb(django_db_keepdb: bool) -> bool:
    """Let the file that was copied stand; it lies in a folder of this run's own. PostgreSQL copies by itself."""
    return django_db_keepdb or bool(MIGRATED and ON_SQLITE)


@pytest.fixture(scope="session", autouse=True)
def static_files_when_asked_for():
    """Each test's browser makes the middleware anew, and WhiteNoise's would list every static file each time."""
    with override_settings(WHITENOISE_AUTOREFRESH=True):
        yield


@contextlib.contextmanager
def rows_of_a_module(django_db_setup: None, django_db_blocker: pytest_django.DjangoDbBlocker) -> Iterator[None]:
    """Keep the rows made within for one module's tests: each test's own transaction lies within this one.

    Pass the two fixtures on. Not for tests that commit (`transaction=True`, a live server).
    """
    quick = override_settings(PASSWORD_HASHERS=QUICK_HASHERS)
    with django_db_blocker.unblock(), quick, transaction.atomic():
        yield
        transaction.set_rollback(True)


@pytest.fixture
def world(db):
    """The people of `make_world`, fresh for one test."""
    return make_world()


@pytest.fixture(autouse=True)
def quick_passwords(settings):
    """Hashing is not under test; the slow hasher would be most of the suite's time."""
    settings.PASSWORD_HASHERS = QUICK_HASHERS


@pytest.fixture(autouse=True)
def drafts_here(settings):
    """No other process sees the tests' database."""
    settings.DRAFT_WORKER = "here"


@pytest.fixture(autouse=True)
def fresh_cache(settings):
    """Rate limits count in the cache; one test's sign-ins must not use up another's."""
    settings.CACHES = {
        **settings.CACHES,
        "signs": {"BACKEND": "django.core.cache.backends.locmem.LocMemCache", "LOCATION": "signs"},
    }
    cache.clear()
