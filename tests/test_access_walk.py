"""Ask every named route for every method as every kind of person, and compare with tests/policies/."""

from collections.abc import Iterator
from http.cookies import SimpleCookie

import pytest
from django.conf import settings
from django.core.cache import cache
from django.db import transaction
from django.test import Client as Browser
from django.urls import URLPattern, URLResolver, get_resolver, reverse

from tests import policies
from tests.conftest import make_world, rows_of_a_module
from tests.engagements import add_coaches
from tests.policies import LIKE, LOGIN, ROLES, TRAINED_ONCE, Policy

METHODS = ("get", "post", "put", "patch", "delete")
REFUSALS = {LOGIN, 401, 403, 404, 405}
SEEN = "a page that names the client"
# Whoever could get through a method that nobody should have: the others have fewer rights than these.
MIGHTIEST = ("anonymous", "client", "coach", "owner")


def patterns(resolver: URLResolver, space: str = "") -> Iterator[tuple[str | None, URLPattern]]:
    """Yield (name with namespace, pattern) of every address, included ones too."""
    for pattern in resolver.url_patterns:
        if isinstance(pattern, URLResolver):
            inner = f"{space}{pattern.namespace}:" if pattern.namespace else space
            yield from patterns(pattern, inner)
        else:
            yield (f"{space}{pattern.name}" if pattern.name else None), pattern


ROUTES = list(patterns(get_resolver()))
NAMES = sorted({name for name, _ in ROUTES if name})
POLICIES = policies.collect()


def test_every_route_has_a_name():
    """An address without a name would escape the walk."""
    assert [str(pattern.pattern) for name, pattern in ROUTES if name is None] == []


def test_no_policy_speaks_of_a_route_that_is_gone():
    assert sorted(POLICIES.keys() - set(NAMES)) == []


def test_the_walk_recurses_into_included_and_namespaced_addresses():
    assert {"account_login", "mfa_index", "home"} <= set(NAMES)


def test_an_engagement_decides_on_the_pages_of_a_client():
    """The four roles that tell the days apart are asked wherever training the client opens a page."""
    for name in ("client-page", "client-comments", "prompt-accept", "why", "prompt"):
        policy = POLICIES[name]
        stated = policy.outcomes("get") or policy.outcomes("post")
        assert set(LIKE) <= set(stated)
        assert {stated[role] for role in TRAINED_ONCE} == {404}


@pytest.fixture(scope="module")
def people(django_db_setup, django_db_blocker):
    """The world with every room's rows and everyone signed in, made once: each request is rolled back to it."""
    with rows_of_a_module(django_db_setup, django_db_blocker):
        world = add_coaches(policies.extend(make_world()))
        world.cookies = {role: cookies_of(world, role) for role in (*ROLES, *LIKE)}
        yield world


def user_of(world, role):
    if role == "anonymous":
        return None
    person = getattr(world, role)
    return person.user if role in policies.CLIENTS else person


def cookies_of(world, role: str) -> SimpleCookie:
    """Sign `role` in; return what the browser then keeps."""
    browser = Browser()
    if user := user_of(world, role):
        browser.force_login(user, backend=settings.AUTHENTICATION_BACKENDS[-1])
    return browser.cookies


def outcome(world, role: str, method: str, name: str, policy: Policy) -> int | str:
    """Send one request as `role` and return its status, or LOGIN for a redirect to sign-in; then undo it.

    A page that names the client to a coach whose engagement is over is SEEN, whatever its status.
    """
    cache.clear()  # rate limits count in it, and this is many requests
    with transaction.atomic():
        browser = Browser(raise_request_exception=False)
        browser.cookies.load(world.cookies[role])
        if policy.before:
            policy.before(world, role)
        extra = {"query_params": policy.query(world)}
        if method in ("post", "put", "patch"):
            extra["data"] = policy.data(world)
            if policy.as_json or method != "post":
                extra["content_type"] = "application/json"
        response = getattr(browser, method)(reverse(name, kwargs=policy.kwargs(world)), **extra)
        transaction.set_rollback(True)
    if response.status_code == 302 and response.url.split("?")[0] == reverse(settings.LOGIN_URL):
        return LOGIN
    if role in TRAINED_ONCE and not response.streaming and str(world.client).encode() in response.content:
        return SEEN
    return response.status_code


@pytest.mark.django_db
@pytest.mark.parametrize("name", NAMES)
def test_route_answers_each_role_as_its_policy_says(name, people):
    policy = POLICIES.get(name)
    assert policy is not None, f"{name} has no policy: state one in tests/policies/<room>.py"
    wrong = []
    for method in METHODS:
        expected = policy.outcomes(method)
        for role in expected or MIGHTIEST:
            got = outcome(people, role, method, name, policy)
            if got != expected[role] if expected else got not in REFUSALS:
                wrong.append(f"{method.upper()} as {role}: {got}, not {expected[role] if expected else 'refused'}")
    assert not wrong, "\n" + "\n".join(wrong)
