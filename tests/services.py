"""Fixtures for tests that need real PostgreSQL and Redis; scripts/test starts both and names them."""

import os
import uuid

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


@pytest.fixture
def clean_database():
    """The address of a new, empty PostgreSQL database that is dropped after the test."""
    base = needed("SINEWRIGHT_TEST_DATABASE_URL")
    name = f"own_{uuid.uuid4().hex[:12]}"
    with psycopg.connect(base, autocommit=True) as connection:
        connection.execute(f'CREATE DATABASE "{name}"')
    yield f"{base.rsplit('/', 1)[0]}/{name}"
    with psycopg.connect(base, autocommit=True) as connection:
        connection.execute(f'DROP DATABASE "{name}" WITH (FORCE)')
