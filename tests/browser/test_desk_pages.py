"""The desk's pages around a program: accessible in light and dark, and no wider than the window, also at 200 % text."""

import datetime as dt

import pytest
from django.core.management import call_command
from django.urls import reverse
from django.utils import timezone

from accounts.models import User
from coaching.fitting.rows import fit_page
from demo.practice import people
from demo.practice.drafted import ASK, write_drafted
from demo.practice.staff import staff_get_or_create
from programs.document.edits import Operation
from programs.models import DraftRun
from programs.services.draft_ask import ask_to_json
from programs.services.fitting import fitting_assign, fitting_begin
from programs.services.program_write import program_edit
from tests.browser.conftest import DESK, PHONE
from tests.browser.test_main_pages import ZOOMED, visit
from tests.conftest import make_client

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def pages(transactional_db):
    """A drafted program, fitted to two clients, changed since; one more fitting is open and one more draft at work."""
    call_command("load_library", verbosity=0)
    today = timezone.now().date()
    staff = staff_get_or_create(today)
    coach = staff.coaches[people.COACHES[0]]
    program = write_drafted(staff, coach.user)
    clients = [make_client(staff.practice, name, coach, minutes_per_session=30) for name in ("clemens", "celia")]
    given, opened = (
        fitting_begin(
            program=program,
            clients=clients,
            starts_on=today + dt.timedelta(days=days),
            weekdays=[0, 3],
            end_running=True,
            author=coach.user,
        )
        for days in (1, 60)
    )
    fitted = {row.client.pk: row.fitted.adapted() for row in fit_page(given, clients).rows}
    plan = fitting_assign(fitting=given, clients=clients, adaptations=fitted, by=coach.user)[0]
    first = program.document["blocks"][0]["weeks"][0]["days"][0]["slots"][0]["key"]
    change = Operation("prescribe", {"slot": first, "text": "5 x 6-8 @ 1"})
    program_edit(program=program, user=coach.user, base_version=1, operation=change)
    now = timezone.now()
    running = DraftRun.objects.create(
        practice=staff.practice, author=coach.user, name="At work", ask=ask_to_json(ASK), queued_at=now,
        state=DraftRun.State.RUNNING, started_at=now, alive_at=now + dt.timedelta(hours=1),
    )  # fmt: skip
    drafted = DraftRun.objects.get(program=program)
    return {
        "drafts": reverse("draft-list"),
        "draft form": reverse("draft-new"),
        "draft at work": reverse("draft-detail", args=[running.pk]),
        "drafted week": reverse("draft-detail", args=[drafted.pk]),
        "weeks side by side": reverse("program-weeks", args=[program.pk]),
        "history": reverse("program-history", args=[program.pk]),
        "differences": reverse("program-differences", args=[program.pk]) + "?from=1&to=2",
        "bring": reverse("program-bring", args=[program.pk]),
        "fitting": reverse("fitting", args=[opened.pk]),
        "choices": reverse("fitting-client", args=[opened.pk, clients[0].pk]),
        "fitted": reverse("fitting", args=[given.pk]),
        "plan": reverse("assignment-detail", args=[plan.pk]),
        "hand-out": reverse("program-handout", args=[program.pk]),
        "links": reverse("program-handout-links", args=[program.pk]),
        "import": reverse("program-import"),
        "export": reverse("program-export", args=[program.pk]),
    }


@pytest.mark.parametrize(
    ("size", "scheme"), [(DESK, "light"), (PHONE, "dark"), (ZOOMED, "light")], ids=["desk", "phone", "200 %"]
)
@pytest.mark.timeout(300)
def test_pages_around_a_program_are_accessible_and_fit(pages, live_server, open_page, sign_in, size, scheme):
    page = open_page(**size)
    sign_in(page, User.objects.get(email="ines@demo.example"), people.PASSWORD)
    faults = visit(page, live_server.url, pages, scheme)
    assert not faults, "\n".join(faults)
