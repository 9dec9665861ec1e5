"""What people see when a page cannot be shown: words and a way on, in the look of the rest."""

import pytest
from django.test import Client
from django.urls import reverse

from coaching.views import methods


def text(response):
    return response.content.decode()


@pytest.mark.django_db
def test_a_wrong_address_is_told_with_a_way_on(client):
    response = client.get("/nowhere/at/all/")
    assert response.status_code == 404
    assert "Nothing is here" in text(response)
    assert 'href="/"' in text(response)


@pytest.mark.django_db
def test_a_form_without_its_token_says_that_nothing_was_saved(world):
    strict = Client(enforce_csrf_checks=True)
    strict.force_login(world.coach)
    response = strict.post(reverse("program-add"), {"name": "x"})
    assert response.status_code == 403
    assert "nothing was saved" in text(response)


@pytest.mark.django_db
def test_a_failure_of_ours_asks_nothing_of_the_database(client, monkeypatch, django_assert_num_queries):
    def fail(*args, **kwargs):
        raise RuntimeError("broken on purpose")

    monkeypatch.setattr(methods, "render", fail)
    client.raise_request_exception = False
    with django_assert_num_queries(0):
        response = client.get(reverse("methods"))
    assert response.status_code == 500
    assert "Something failed on our side" in text(response)
