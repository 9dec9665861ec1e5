"""The phone of bench/outbox.py: what a client does, and what goes wrong meanwhile."""

import collections
import contextlib
import datetime as dt
import random
from dataclasses import dataclass
from pathlib import Path

from allauth.account.models import EmailAddress
from django.utils import timezone
from playwright.sync_api import BrowserType, Error, Page, expect

from accounts.models import Client
from logbook.models import Session, SetLog
from programs.models import Exercise, PlannedSession
from tests.browser import faults
from tests.browser.conftest import PHONE
from tests.browser.offline import HERE, kept, log_sets, sent
from tests.conftest import PASSWORD, make_world
from tests.logbook.factories import make_exercise, make_planned

Typed = list[tuple[float, int]]
REQUEST_FAULTS = tuple(faults.FAULTS)
OTHER_FAULTS = ("nothing", "offline", "reload", "reopened", "second tab", "edit", "slow")


@dataclass
class Gym:
    client: Client
    lift: Exercise

    def plan(self, number: int) -> PlannedSession:
        """Plan one more session for today; the one before goes out of the way."""
        today = timezone.now().astimezone(self.client.user.zone).date()
        before = today - dt.timedelta(days=30)
        PlannedSession.objects.filter(client=self.client).update(date=before)
        Session.objects.filter(client=self.client).update(date=before)
        return make_planned(self.client, today, {"exercise": self.lift, "sets": 12}, day_name=f"Day {number}")


def make_gym() -> Gym:
    world = make_world()
    user = world.client.user
    EmailAddress.objects.create(user=user, email=user.email, verified=True, primary=True)
    return Gym(world.client, make_exercise("curl", "dumbbell"))


def outcome(planned: PlannedSession, typed: Typed) -> collections.Counter[str]:
    """Compare what stands in the log with what was typed."""
    rows = SetLog.objects.filter(session__planned=planned, deleted_at=None).order_by("performed_at")
    found = [(row.load, row.reps) for row in rows]
    wanted, got = collections.Counter(typed), collections.Counter(found)
    lost, more = (wanted - got).total(), (got - wanted).total()
    unsorted = not lost and not more and found != typed
    return collections.Counter({"typed": len(typed), "lost": lost, "doubled": more, "out of order": int(unsorted)})


class Phone:
    def __init__(self, chromium: BrowserType, path: str, profile: Path, url: str, gym: Gym) -> None:
        self.chromium, self.path, self.profile, self.url, self.gym = chromium, path, profile, url, gym
        self.slow = faults.Slow()
        self.start()

    def start(self) -> None:
        self.context = faults.launch(self.chromium, self.path, self.profile, **PHONE)
        self.page = self.context.pages[0]

    def sign_in(self) -> None:
        """Sign in once, and end the browser in peace once, so that the cookie is on the disk."""
        self.page.goto(f"{self.url}/account/login/")
        self.page.fill("input[name=login]", self.gym.client.user.email)
        self.page.fill("input[name=password]", PASSWORD)
        self.page.press("input[name=password]", "Enter")
        self.page.wait_for_url("**/train/")
        kept(self.page)
        self.context.close()
        self.start()

    def open(self, page: Page) -> None:
        page.goto(f"{self.url}/train/planned/{self.planned.pk}/")
        page.wait_for_selector("body[data-ready]")

    def session(
        self,
        planned: PlannedSession,
        chance: random.Random,
        sets: int,
        *,
        kill: bool,
        faults: collections.Counter[str],
    ) -> Typed:
        """Log `sets` sets with a fault before each; return what the log must hold."""
        self.planned = planned
        self.happened: list[str] = []
        self.keep()
        typed: Typed = []
        fatal = chance.randrange(sets) if kill else None
        for number in range(sets):
            fault = chance.choice(chance.choice((REQUEST_FAULTS, OTHER_FAULTS)))
            faults[fault] += 1
            self.happened.append(fault)
            self.happen(fault, typed)
            typed += log_sets(self.page, [(str(2 * chance.randint(1, 20)), str(number + 1))])
            if number == fatal:
                faults["kill -9"] += 1
                self.happened.append("kill -9")
                self.flat_battery()
        self.end()
        return typed

    def keep(self) -> None:
        """Open today's pages with a good connection, so that they are on the phone."""
        self.page.goto(f"{self.url}/train/")
        kept(self.page)
        self.open(self.page)
        kept(self.page)

    def happen(self, fault: str, typed: Typed) -> None:
        if fault in REQUEST_FAULTS:
            faults.break_next(self.page, fault)
        elif fault == "offline":
            self.context.set_offline(True)
        elif fault == "slow":
            self.page.route(faults.API, self.slow, times=1)
        elif fault == "reload":
            self.page.reload()
            self.page.wait_for_selector("body[data-ready]")
        elif fault in ("reopened", "second tab"):
            old, self.page = self.page, self.context.new_page()
            if fault == "reopened":
                old.close()
            self.open(self.page)
        elif fault == "edit" and typed:
            self.edit(typed)

    def edit(self, typed: Typed) -> None:
        """Change the repetitions of the last set."""
        load, reps = typed[-1]
        self.page.locator(HERE + "[data-edit]").last.tap()
        # As a person would: without seeing the edit open, nobody types into it.
        expect(self.page.locator(HERE + "[data-set-title]")).to_contain_text("Edit set")
        self.page.fill(HERE + "[name=reps]", str(reps + 20))
        self.page.locator(HERE + "[data-log]").tap()
        typed[-1] = (load, reps + 20)

    def flat_battery(self) -> None:
        """Kill the browser as soon as the page says that the set is on the phone, and start it again."""
        last = self.page.locator(HERE + "[data-set] .sync").last
        for _ in range(500):
            if "sav" not in (last.text_content() or "") or (last.text_content() or "") == "saved":
                break
            self.page.wait_for_timeout(20)
        faults.kill(self.profile)
        with contextlib.suppress(Error):
            self.context.close()
        self.slow.held.clear()
        self.start()
        self.open(self.page)

    def end(self) -> None:
        """A good connection again: everything must go."""
        self.slow.let_go()
        self.context.set_offline(False)
        for page in self.context.pages:
            page.unroute_all(behavior="ignoreErrors")
            if page is not self.page:
                page.close()
        for _ in range(20):
            self.page.evaluate("dispatchEvent(new Event('online'))")
            with contextlib.suppress(AssertionError):
                sent(self.page)
                return
            self.page.reload()
            self.page.wait_for_selector("body[data-ready]")
