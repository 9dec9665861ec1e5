"""Log sessions on a phone while everything goes wrong, and count what was lost or doubled.

    .venv/bin/python bench/outbox.py 300 [--seed 1]

A real Chromium, 390 x 844 with touch, against the program itself on a database of its own. Each of the N sessions has
six sets; before each set chance picks a fault (the request cut, its answer cut or held back, 401, 403, 409, 429, 500,
503, half a batch saved, no connection at all, a reload, the page closed and opened, a second tab, an edit), and in one
of eight sessions the browser is killed with kill -9. Then the connection is good again, and the log must hold each set
once, as last typed, in order.
"""

import argparse
import collections
import contextlib
import logging
import os
import random
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")

SETS = 6
KILL_EVERY = 8


def main() -> int:
    parser = argparse.ArgumentParser(description="Count sets lost and doubled between phone and server.")
    parser.add_argument("sessions", type=int)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        os.environ["SINEWRIGHT_DATA_DIR"] = folder
        os.environ["DJANGO_SETTINGS_MODULE"] = "coaching.settings"
        import django

        django.setup()
        from tests.browser.stack import running_stack

        with running_stack(Path(folder)) as stack:
            return run(stack.url, Path(folder) / "profile", options.sessions, random.Random(options.seed))


def run(url: str, profile: Path, sessions: int, chance: random.Random) -> int:
    """Log the sessions one after the other; print and return how many sets were lost, doubled or out of order."""
    from playwright.sync_api import sync_playwright

    from bench.outbox_phone import Phone, make_gym, outcome
    from scripts.services import find_program

    # Whoever kills a browser leaves tasks behind that nobody waits for.
    logging.getLogger("asyncio").setLevel(logging.CRITICAL)
    tally: collections.Counter[str] = collections.Counter()
    faults: collections.Counter[str] = collections.Counter()
    started = time.monotonic()
    gym = make_gym()
    browser = os.environ.get("SINEWRIGHT_TEST_BROWSER") or find_program("chromium") or ""
    with sync_playwright() as playwright:
        phone = Phone(playwright.chromium, browser, profile, url, gym)
        phone.sign_in()
        for number in range(sessions):
            planned = gym.plan(number)
            typed = phone.session(planned, chance, SETS, kill=number % KILL_EVERY == KILL_EVERY - 1, faults=faults)
            result = outcome(planned, typed)
            tally.update(result)
            if result["lost"] or result["doubled"] or result["out of order"]:
                print(f"session {number}: {dict(result)}; typed {typed}; faults {phone.happened}")
            if number % 25 == 24:
                print(f"{number + 1} sessions in {time.monotonic() - started:.0f} s", flush=True)
        with contextlib.suppress(Exception):
            phone.context.close()
    print("faults: " + ", ".join(f"{name} {count}" for name, count in faults.most_common()))
    print(
        f"{sessions} sessions, {tally['typed']} sets typed in {time.monotonic() - started:.0f} s: "
        f"lost {tally['lost']}, doubled {tally['doubled']}, out of order {tally['out of order']}"
    )
    return 1 if tally["lost"] or tally["doubled"] or tally["out of order"] else 0


if __name__ == "__main__":
    sys.exit(main())
