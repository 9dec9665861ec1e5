"""Fixtures for tests that need real PostgreSQL and Redis; scripts/test starts both and names them."""

import contextlib
import os
import uuid
from collections.abc import Iterator

import psycopg
import pytest


def needed(name: str) -> str:
    value = os.environ.get(name)
    if value:
        return value
    if os.environ.get("CI") == "true":
        pytest.fail(f"{name} is not set, and CI=true: run scripts/test")
    pytest.skip(f"{name} is not set: run scripts/test")


@pytest.fixture
def redis_url() -> str:
    """An empty Redis."""
    import redis

    url = needed("SINEWRIGHT_TEST_REDIS_URL")
    redis.Redis.from_url(url).flushall()
    return url


@contextlib.contextmanager
def new_database(template: str = "template1") -> Iterator[str]:
    base = needed("SINEWRIGHT_TEST_DATABASE_URL")
    name = f"own_{uuid.uuid4().hex[:12]}"
    with psycopg.connect(base, autocommit=True) as connection:
        connection.execute(f'CREATE DATABASE "{name}" TEMPLATE "{template}"')
    yield f"{base.rsplit('/', 1)[0]}/{name}"
    with psycopg.connect(base, autocommit=True) as connection:
        connection.execute(f'DROP DATABASE "{name}" WITH (FORCE)')


@pytest.fixture
def clean_database() -> Iterator[str]:
    """The address of a new, empty PostgreSQL database that is dropped after the test."""
    with new_database() as address:
        yield address


@pytest.fixture
def migrated_database() -> Iterator[str]:
    """Like `clean_database`, with our tables where scripts/test has made them once: migrating has less to do."""
    with new_database(os.environ.get("SINEWRIGHT_TEST_MIGRATED_POSTGRES", "template1")) as address:
        yield address
