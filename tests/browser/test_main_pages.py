"""The main pages, with demo data: accessible, within the window at 200 % text, and usable by keyboard."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.core.management import call_command
from django.urls import reverse
from playwright.sync_api import Page

from accounts.models import Client, Membership, User
from coaching.models import WeekSummary
from demo.practice import people
from demo.practice.people import PEOPLE
from programs.models import Exercise, Program
from tests.browser.conftest import DESK, PHONE

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

COUPLE = tuple(person for person in PEOPLE if person.name.split()[0] in ("Yara", "Quirin"))
# 200 % on a window of 1280 px leaves 640 px of the page's own.
ZOOMED = {"viewport": {"width": 640, "height": 450}, "device_scale_factor": 2}
# Without lists of what is well, axe needs half the time.
AXE_OPTIONS = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    "resultTypes": ["violations"],
}
# What a page says and where it stands is the same in both schemes.
OF_COLOURS = {**AXE_OPTIONS, "runOnly": ["color-contrast", "link-in-text-block"]}


@pytest.fixture
def demo(transactional_db, monkeypatch):
    """The demo with two of its clients, recomputed in process."""
    monkeypatch.setattr("demo.management.commands.load_demo.PEOPLE", COUPLE)
    call_command("load_library", verbosity=0)
    call_command("load_demo")


def coach_pages() -> dict[str, str]:
    client, program = Client.objects.get(user__email__startswith="quirin"), Program.objects.first()
    return {
        "board": reverse("board"),
        "client page": reverse("client-page", args=[client.pk]),
        "client volume": reverse("client-volume", args=[client.pk]),
        "client strength": reverse("client-strength", args=[client.pk]),
        "client comments": reverse("client-comments", args=[client.pk]),
        "clients": reverse("client-list"),
        "programs": reverse("program-list"),
        "editor": reverse("program-editor", args=[program.pk]),
        "assign": reverse("program-assign", args=[program.pk]),
        "exercises": reverse("exercise-list"),
        "exercise": reverse("exercise-detail", args=[Exercise.objects.get(slug="leg-press").pk]),
        "practice": reverse("practice"),
    }


def client_pages() -> dict[str, str]:
    client = Client.objects.get(user__email__startswith="quirin")
    planned = client.planned_sessions.filter(performed=None, cancelled_at=None).latest("date")
    return {
        "today": reverse("today"),
        "session": reverse("planned-session", args=[planned.pk]),
        "plan": reverse("plan"),
        "check-in": reverse("check-in"),
        "done": reverse("history"),
        "progress": reverse("progress"),
        "comments": reverse("comments"),
        "you": reverse("profile"),
    }


def compared_day(client: Client) -> str:
    """Return the last day whose check-in was compared with the days before it."""
    weeks = WeekSummary.objects.filter(client=client).order_by("-week")
    return next(one["day"] for row in weeks for one in row.check_ins.get("days", ()))


def owner_pages() -> dict[str, str]:
    """What stands one step behind the main pages; a word of each kind that can be asked why."""
    client = Client.objects.get(user__email__startswith="quirin")
    week, day = WeekSummary.objects.filter(client=client).latest("week").week, compared_day(client)
    coach = Membership.objects.get(user__email="tobias@demo.example")
    done = client.sessions.exclude(finished_at=None).latest("started_at")
    about = ("decisions", "notes", "screening", "targets", "fit", "past", "edit", "coach", "erase")
    asked = {"kept": week, "volume": f"{week}/chest", "urgency": week, "check-in": day}
    return {
        **{f"client {name}": reverse(f"client-{name}", args=[client.pk]) for name in about},
        **{f"why {kind}": reverse("why", args=[client.pk, kind, path]) for kind, path in asked.items()},
        "logged session": reverse("performed-session", args=[done.pk]),
        "grouped board": reverse("board") + "?group=block",
        "data": reverse("practice-data"),
        "audit": reverse("audit"),
        "cover": reverse("cover-new"),
        "coach": reverse("membership-edit", args=[coach.pk]),
        "hand-over": reverse("hand-over", args=[coach.pk]),
        "invite": reverse("client-invite"),
        "method": reverse("method", args=["weekly-volume"]),
        "second factor": reverse("mfa_index"),
        "password": reverse("account_change_password"),
        "address": reverse("account_email"),
    }


def more_client_pages() -> dict[str, str]:
    client = Client.objects.get(user__email__startswith="quirin")
    done = client.sessions.exclude(finished_at=None).latest("started_at")
    return {
        "logged session": reverse("performed-session", args=[done.pk]),
        "another exercise": reverse("session-add", args=[done.pk]),
        "one set": reverse("set-page", args=[done.sets.first().pk]),
        "why": reverse("own-why", args=["check-in", compared_day(client)]),
        "calendar": reverse("calendar"),
        "health questions": reverse("screening"),
        "on this phone": reverse("on-this-phone"),
        "limits": reverse("own-fit"),
        "past training": reverse("own-past"),
        "who looked": reverse("audit-own"),
    }


def visit(page: Page, base: str, pages: dict[str, str], *schemes: str) -> list[str]:
    """Open each page; return what axe finds in the first scheme and of colours in the others, and what is too wide."""
    faults = []
    for name, path in pages.items():
        page.emulate_media(color_scheme=schemes[0])
        response = page.goto(base + path)
        assert response.status == 200, name
        for scheme in schemes:
            page.emulate_media(color_scheme=scheme)
            options = AXE_OPTIONS if scheme == schemes[0] else OF_COLOURS
            for violation in Axe().run(page, options=options).response["violations"]:
                faults.append(f"{name}, {scheme}: {violation['id']} at {violation['nodes'][0]['html'][:120]}")
            wide = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
            if wide > 1:
                faults.append(f"{name}, {scheme}: {wide} px wider than the window")
    return faults


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
@pytest.mark.timeout(300)
def test_main_pages_are_accessible_in_light_and_dark(demo, live_server, open_page, sign_in, size):
    faults = []
    for email, pages in (("tobias@demo.example", coach_pages), ("quirin@demo.example", client_pages)):
        page = open_page(**size)
        sign_in(page, User.objects.get(email=email), people.PASSWORD)
        faults += visit(page, live_server.url, pages(), "light", "dark")
    assert not faults, "\n".join(faults)


@pytest.mark.timeout(300)
def test_the_pages_behind_them_are_accessible_on_a_phone_in_the_dark(demo, live_server, open_page, sign_in):
    faults = []
    for email, pages in (("marit@demo.example", owner_pages), ("quirin@demo.example", more_client_pages)):
        page = open_page(**PHONE)
        sign_in(page, User.objects.get(email=email), people.PASSWORD)
        faults += visit(page, live_server.url, pages(), "dark")
    stranger = open_page(**PHONE)
    doors = {"sign-in": reverse("account_login"), "password reset": reverse("account_reset_password")}
    faults += visit(stranger, live_server.url, doors, "dark")
    assert not faults, "\n".join(faults)


@pytest.mark.timeout(300)
def test_main_pages_hold_at_200_percent_text(demo, live_server, open_page, sign_in):
    faults = []
    for email, pages in (("tobias@demo.example", coach_pages), ("quirin@demo.example", client_pages)):
        page = open_page(**ZOOMED)
        sign_in(page, User.objects.get(email=email), people.PASSWORD)
        for name, path in pages().items():
            page.goto(live_server.url + path)
            wide = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
            if wide > 1:
                faults.append(f"{name}: {wide} px wider than the window")
    assert not faults, "\n".join(faults)


@pytest.mark.timeout(300)
def test_focus_goes_through_every_main_page_and_is_always_seen(demo, live_server, open_page, sign_in):
    """Tab from the top: the first stop is the way to the content, and every stop shows an outline."""
    faults = []
    for email, pages in (("tobias@demo.example", coach_pages), ("quirin@demo.example", client_pages)):
        page = open_page(**DESK)
        sign_in(page, User.objects.get(email=email), people.PASSWORD)
        for name, path in pages().items():
            page.goto(live_server.url + path)
            page.keyboard.press("Tab")
            if page.evaluate("document.activeElement.getAttribute('href')") != "#main":
                faults.append(f"{name}: the first stop is not the way to the content")
            stops = set()
            for _ in range(12):
                page.keyboard.press("Tab")
                seen = page.evaluate(
                    """() => { const one = document.activeElement, style = getComputedStyle(one);
                       return [one.tagName + (one.id || one.name || one.textContent).slice(0, 40),
                         style.outlineStyle !== 'none' || [...one.parentElement.querySelectorAll('*')].some(
                           (near) => getComputedStyle(near).outlineStyle !== 'none')]; }"""
                )
                if seen[0].startswith("BODY"):
                    break  # the page's end
                stops.add(seen[0])
                if not seen[1]:
                    faults.append(f"{name}: no outline at {seen[0]}")
            if len(stops) < 3:
                faults.append(f"{name}: the focus is caught at {stops}")
    assert not faults, "\n".join(faults)
