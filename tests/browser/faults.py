"""What can go wrong between a phone and the server, made to happen in a browser."""

import contextlib
import json
import os
import signal
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import APIResponse, BrowserContext, BrowserType, Error, Page, Route

from tests.browser.stack import FLAGS, PATIENCE_MS

API = "**/api/v1/operations/"


def answers(status: int) -> Callable[[Route], None]:
    """Refuse the request before the server sees it."""
    return lambda route: route.fulfill(status=status, body="{}")


def lost_reply(route: Route) -> None:
    """Let the server do it, and cut the answer."""
    route.fetch()
    route.abort()


def cut(route: Route) -> None:
    """Lose the request on its way."""
    route.abort()


class Slow:
    """Hold the answer back, after the server has done it, until `let_go`."""

    def __init__(self) -> None:
        self.held: list[tuple[Route, APIResponse]] = []

    def __call__(self, route: Route) -> None:
        with contextlib.suppress(Error):
            self.held.append((route, route.fetch()))

    def let_go(self) -> None:
        for route, reply in self.held:
            with contextlib.suppress(Error):  # the page may be gone by then
                route.fulfill(response=reply)
        self.held.clear()


def half_saved(route: Route) -> None:
    """Let the server do the first operation of the batch only, and say 'retry' for the rest."""
    operations = json.loads(route.request.post_data or "{}")["operations"]
    reply = route.fetch(post_data={"operations": operations[:1]}).json()
    rest = [{"id": one["id"], "status": "retry"} for one in operations[1:]]
    route.fulfill(status=207, json={"results": reply["results"] + rest})


FAULTS: dict[str, Callable[[Route], None]] = {
    "401": answers(401),
    "403": answers(403),
    "409": answers(409),
    "429": answers(429),
    "500": answers(500),
    "503": answers(503),
    "no connection": cut,
    "lost reply": lost_reply,
    "half saved": half_saved,
}


def break_next(page: Page, name: str) -> None:
    """Make the next request of the page's outbox go wrong."""

    def act(route: Route) -> None:
        with contextlib.suppress(Error):  # the page was closed or reloaded meanwhile: that is one more fault
            FAULTS[name](route)

    page.route(API, act, times=1)


def launch(chromium: BrowserType, path: str, profile: Path, **options: object) -> BrowserContext:
    """Start a browser of its own on a profile that outlives it."""
    context = chromium.launch_persistent_context(str(profile), executable_path=path, args=FLAGS, **options)
    context.set_default_timeout(PATIENCE_MS)
    return context


def kill(profile: Path) -> None:
    """End the browser of this profile as a flat battery would: kill -9, no farewell."""
    wanted = f"--user-data-dir={profile}"
    for process in Path("/proc").iterdir():
        with contextlib.suppress(OSError):
            command = (
                (process / "cmdline").read_bytes().decode(errors="replace").split("\0")
                if process.name.isdigit()
                else []
            )
            if wanted in command and not any(part.startswith("--type=") for part in command):
                os.kill(int(process.name), signal.SIGKILL)
    # What locks the profile goes with the process it names.
    for name in ("SingletonLock", "SingletonCookie", "SingletonSocket"):
        with contextlib.suppress(OSError):
            (profile / name).unlink()
