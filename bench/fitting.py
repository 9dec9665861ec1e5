"""How long one page with thirty clients takes: the demo's four-day program, fitted to what its people have at hand.

    .venv/bin/pytest -s bench/fitting.py

Server time of the page with 3 and with 30 clients, interleaved, and of assigning to all 30, by the test client with the
whole library. The figure is one of this machine at this moment.
"""

import datetime as dt
import statistics
from time import perf_counter

import pytest
from django.template.base import Template
from django.test.utils import _TestState
from django.urls import reverse

from demo.practice.documents import document_of
from demo.practice.fit import FITS, write_fit
from demo.practice.programs import UPPER_LOWER
from programs.models import Exercise
from programs.services.fitting import fitting_begin
from programs.services.program_write import program_create
from tests.conftest import make_client, quick_passwords, world  # noqa: F401 - fixtures
from tests.programs.library_fixture import library, library_rows  # noqa: F401 - fixtures

pytestmark = pytest.mark.django_db

MOST_S = 1.0
ROUNDS = 7
STATUS = ("novice", "intermediate", "advanced")


@pytest.fixture
def plain_templates(monkeypatch):
    """Templates as a server renders them: the test runner's copy of every context costs more than the page."""
    monkeypatch.setattr(Template, "_render", _TestState.saved_data.template_render)


@pytest.fixture
def people(world, library):  # noqa: F811
    """Thirty clients with the equipment, limits and minutes of the demo's, three statuses, both units."""
    names, found = list(FITS), []
    for number in range(30):
        person = make_client(world.practice, f"c{number}", world.coach_membership)
        person.training_status = STATUS[number % 3]
        person.save()
        person.user.load_unit = ("kg", "lb")[number % 2]
        person.user.save()
        write_fit(person, names[number % len(names)], world.coach, dt.date(2026, 1, 1))
        found.append(person)
    return found


def test_thirty_clients_on_one_page(client, world, people, plain_templates):  # noqa: F811
    client.force_login(world.coach, backend="allauth.account.auth_backends.AuthenticationBackend")
    exercises = dict(Exercise.objects.filter(practice=None).values_list("slug", "pk"))
    program = program_create(
        practice=world.practice, author=world.coach, name="Four days", document=document_of(UPPER_LOWER, exercises)
    )
    known = {"program": program, "starts_on": dt.date(2030, 1, 7), "weekdays": [0, 1, 3, 4], "end_running": False}
    fittings = {n: fitting_begin(clients=people[:n], author=world.coach, **known) for n in (3, 30)}
    times = {count: [] for count in fittings}
    for number in range(ROUNDS + 1):
        for count, fitting in fittings.items():
            start = perf_counter()
            assert client.get(reverse("fitting", args=[fitting.pk])).status_code == 200
            if number:  # the first fills caches
                times[count].append(perf_counter() - start)
    few, many = (statistics.median(times[count]) for count in (3, 30))
    start = perf_counter()
    assert client.post(reverse("fitting-make", args=[fittings[30].pk])).status_code == 302
    assigning = perf_counter() - start
    print(
        f"\npage: 3 clients {few:.2f} s, 30 clients {many:.2f} s (worst {max(times[30]):.2f}); assign {assigning:.2f} s"
    )
    assert many < MOST_S
    assert many < 10 * few
