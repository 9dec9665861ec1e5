"""All text is translatable: every page, in a language made from the catalogue, shows nothing else but data.

Each route is asked as its policy in tests/policies/ says; a new page is looked at as soon as it has one.
"""

import json

import pytest
from django.apps import apps
from django.contrib.messages import get_messages
from django.core.cache import cache
from django.db import models, transaction
from django.test import Client as Browser
from django.test import override_settings
from django.test.client import ClientHandler
from django.urls import reverse

from tests import policies
from tests.conftest import make_world
from tests.test_access_walk import POLICIES, cookies_of
from tests.words.pseudo import CODE
from tests.words.visible import WORD, outside, untranslated, words

# Whoever sees the most of a page first.
ORDER = ("coach", "owner", "client", "anonymous", "nobody", "colleague", "outsider", "other_client")
# One for all requests: a browser's own would load the middleware, and look through all static files, each time.
HANDLER = ClientHandler(enforce_csrf_checks=False)
# Written in the fixtures' programs, which are documents.
DOCUMENTS = ("Slow on the way down.", "Stop when the joint hurts.")
# The title of a methods page, whose article says that it is in English; a language without a name of its own.
FOREIGN = ("Strength: the estimated one-repetition maximum", "En-xa")


def data() -> dict[str, None]:
    """Every text that people or the library wrote, longest first: it stays in the language it was written in."""
    found = {*DOCUMENTS, *FOREIGN}
    for model in apps.get_models():
        texts = (models.CharField, models.TextField)
        fields = [one.attname for one in model._meta.concrete_fields if isinstance(one, texts) and not one.choices]
        if fields:
            for row in model._base_manager.values_list(*fields):
                found |= {value for value in row if isinstance(value, str) and WORD.search(value)}
    return dict.fromkeys(sorted(found, key=len, reverse=True))


@pytest.fixture(scope="module")
def people(django_db_setup, django_db_blocker):
    """The world with every room's rows, made once: each request is rolled back to it."""
    fast = override_settings(PASSWORD_HASHERS=["django.contrib.auth.hashers.MD5PasswordHasher"])
    with django_db_blocker.unblock(), fast, transaction.atomic():
        world = policies.extend(make_world())
        world.data = data()
        world.cookies = {role: cookies_of(world, role) for role in ORDER}
        yield world
        transaction.set_rollback(True)


def ask(world, name, policy, method, role):
    """Return the answer to one request in the pseudo-language, an empty one if it is a form; then undo it."""
    cache.clear()
    with transaction.atomic():
        browser = Browser(headers={"accept-language": CODE})
        browser.handler = HANDLER
        browser.cookies.load(world.cookies[role])
        if policy.before:
            policy.before(world, role)
        extra = {"query_params": policy.query(world)}
        if policy.as_json and method == "post":
            extra |= {"content_type": "application/json", "data": {}}
        answer = getattr(browser, method)(reverse(name, kwargs=policy.kwargs(world)), **extra)
        answer.whole = b"".join(answer.streaming_content) if answer.streaming else answer.content
        transaction.set_rollback(True)
    return answer


def findings(answer, known):
    """Yield what of an answer is not in the pseudo-language: of a page, a problem body, or a message to come."""
    kind = answer.get("Content-Type", "").split(";")[0]
    if kind == "text/html":
        yield from untranslated(answer.whole.decode(), known)
    if kind == "application/problem+json":
        body = json.loads(answer.whole)
        yield from (body[part] for part in ("title", "detail") if words(outside(body.get(part) or "")[0], known))
    if answer.status_code == 302:
        yield from (str(one) for one in get_messages(answer.wsgi_request) if words(outside(str(one))[0], known))


@pytest.mark.django_db
@pytest.mark.parametrize("room", [module.__name__.rpartition(".")[2] for module in policies.modules()])
def test_every_text_of_every_page_is_a_message(room, people, pseudo_language):
    wrong = {}
    for name in vars(policies)[room].POLICIES:
        for method in ("get", "post"):
            outcomes = POLICIES[name].outcomes(method) or {}
            role = next((one for one in ORDER if outcomes.get(one) in (200, 201, 302)), None)
            if role:
                answer = ask(people, name, POLICIES[name], method, role)
                for text in findings(answer, people.data):
                    wrong.setdefault(text[:200], f"{method} {name} as {role}")
    assert not wrong, "\n" + "\n".join(f"{where}: {text}" for text, where in wrong.items())
