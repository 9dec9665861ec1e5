"""How long one page with thirty clients takes: the demo's four-day program, fitted to what its people have at hand.

    .venv/bin/pytest -s bench/fitting.py

Server time of the page and of the POST that assigns, with 3 and with 30 clients, interleaved, by the test client with
the whole library: median and worst by the clock on the wall, and the processor's time. The POST is timed until the
answer is out, with what follows the commit; the process that it begins for the recomputes of many is not waited for, as
no page does. The figures are those of this machine at this moment.
"""

import datetime as dt
import statistics
from time import perf_counter, process_time

import pytest
from django.template.base import Template
from django.test.utils import _TestState
from django.urls import reverse

from coaching import processes
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


@pytest.fixture
def begun(monkeypatch):
    """Other processes that were begun: none is, for it would not see this database."""
    found = []
    monkeypatch.setattr(processes, "begin", lambda *command: found.append(command))
    return found


class Timed:
    """How long one thing took, each time: seconds on the wall and of the processor."""

    def __init__(self):
        self.wall, self.processor = [], []

    def __enter__(self):
        self.start = perf_counter(), process_time()

    def __exit__(self, *rest):
        self.wall.append(perf_counter() - self.start[0])
        self.processor.append(process_time() - self.start[1])

    def __str__(self):
        processor = statistics.median(self.processor[1:])
        return f"{self.median:.2f} s (worst {max(self.wall[1:]):.2f}, processor {processor:.2f})"

    @property
    def median(self):
        return statistics.median(self.wall[1:])  # the first fills caches


def test_thirty_clients_on_one_page(
    client,
    world,  # noqa: F811
    people,
    plain_templates,
    settings,
    begun,
    django_capture_on_commit_callbacks,
):
    settings.CELERY_BROKER_URL, settings.DRAFT_WORKER = None, "process"
    client.force_login(world.coach, backend="allauth.account.auth_backends.AuthenticationBackend")
    exercises = dict(Exercise.objects.filter(practice=None).values_list("slug", "pk"))
    program = program_create(
        practice=world.practice, author=world.coach, name="Four days", document=document_of(UPPER_LOWER, exercises)
    )
    known = {"program": program, "weekdays": [0, 1, 3, 4], "end_running": False, "author": world.coach}
    page, post = {3: Timed(), 30: Timed()}, {3: Timed(), 30: Timed()}
    for number in range(ROUNDS + 1):
        for count in page:
            # A copy that begins on another day: the same one is not assigned twice.
            day = dt.date(2030, 1, 7) + dt.timedelta(weeks=2 * number, days=count % 2)
            fitting = fitting_begin(clients=people[:count], starts_on=day, **known)
            with page[count]:
                assert client.get(reverse("fitting", args=[fitting.pk])).status_code == 200
            with post[count], django_capture_on_commit_callbacks(execute=True):
                assert client.post(reverse("fitting-make", args=[fitting.pk])).status_code == 302
    assert len(begun) == ROUNDS + 1  # for thirty; those of three are computed before the answer
    for what, timed in {"page": page, "assigning": post}.items():
        print(f"\n{what}: 3 clients {timed[3]}, 30 clients {timed[30]}", end="")
    print()
    for timed in (page, post):
        assert timed[30].median < MOST_S
        assert timed[30].median < 10 * timed[3].median
