# ruff: noqa: E402 - Django is set up before its models are imported
"""Upgrade an early practice in a process of its own, and follow the links of its pages; print what did not open.

Run by test_upgrade.py with SINEWRIGHT_DATA_DIR at a folder that holds the early database.
"""

import datetime as dt
import json
import logging
import os
import sys
from collections import deque
from html.parser import HTMLParser
from pathlib import Path
from unittest import mock
from urllib.parse import urljoin, urlsplit

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
os.environ["DJANGO_SETTINGS_MODULE"] = "coaching.settings"

import django

django.setup()

from django.conf import settings
from django.core.management import call_command
from django.test import Client
from django.urls import resolve
from django.utils import timezone

from accounts.models import User
from coaching.models import WeekSummary
from logbook.models import SetLog

# Three weeks after the practice was installed.
NOW = dt.datetime(2026, 11, 25, 19, 0, tzinfo=dt.UTC)
WHO = ("marit@demo.example", "ines@demo.example", "cleo@demo.example")


class Links(HTMLParser):
    """The addresses of a page's links."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        self.found += [to for name, to in attributes if tag == "a" and name in ("href", "hx-get") and to]


def walk(email: str) -> tuple[set[str], list[str]]:
    """Open one page of every route that can be reached by links; return the routes, and the addresses that failed."""
    browser = Client(raise_request_exception=False, HTTP_HOST="127.0.0.1")
    browser.force_login(User.objects.get(email=email), backend=settings.AUTHENTICATION_BACKENDS[-1])
    seen, failed, waiting = set(), [], deque(["/"])
    while waiting:
        address = waiting.popleft()
        route = resolve(urlsplit(address).path).view_name
        if route in seen:
            continue
        seen.add(route)
        answer = browser.get(address)
        if answer.status_code in (301, 302):
            waiting.append(urljoin(address, answer["Location"]))
        elif answer.status_code != 200:
            failed.append(f"{email} {address}: {answer.status_code}")
        elif "html" in answer["Content-Type"]:
            there = (urljoin(address, link).partition("#")[0] for link in Links(answer.text).found)
            waiting.extend(one for one in there if one.startswith("/"))
    return seen, failed


def main() -> None:
    logging.disable(logging.CRITICAL)
    before = SetLog.objects.count()
    call_command("set_up", stdout=sys.stderr)
    told = {"sets": [before, SetLog.objects.count()], "routes": {}, "failed": []}
    for when, who in (("before the worker", WHO), ("after", (WHO[0], WHO[2]))):
        for email in who:
            routes, failed = walk(email)
            told["routes"][email] = len(routes)
            told["failed"] += [f"{when}: {one}" for one in failed]
        call_command("recompute", "--all", stdout=sys.stderr)
    told["weeks"] = WeekSummary.objects.count()
    sys.stdout.write(json.dumps(told) + "\n")


if __name__ == "__main__":
    with mock.patch.object(timezone, "now", return_value=NOW):
        main()
