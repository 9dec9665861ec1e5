"""What one server holds: bytes a set, requests and recomputes a core-second, on PostgreSQL and Redis, with the demo.

    .venv/bin/python bench/scaling.py            prints the tables of docs/scaling.md

Time is processor time of the server's own processes, so another program on the machine changes the figures little. The
load goes to loopback, a few hundred requests a page, one after the other; a run with any failed request is thrown away.
"""

import http.client
import json
import os
import subprocess
import sys
import tempfile
import uuid
from datetime import UTC, datetime
from pathlib import Path
from urllib.parse import urlsplit

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))

from scripts.services import private_postgres, private_redis  # noqa: E402
from tests.browser.stack import Stack, running_stack  # noqa: E402

ROUNDS = 200
TICKS = os.sysconf("SC_CLK_TCK")
INSIDE = "from bench import scaling_inside as s; s.{}"


def inside(stack: Stack, call: str) -> dict:
    """Run one function of bench/scaling_inside.py within the set-up and return what it printed."""
    command = [sys.executable, "manage.py", "shell", "--no-imports", "-c", INSIDE.format(call)]
    environment = {**stack.environment, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(command, cwd=ROOT, env=environment, check=True, capture_output=True, text=True)
    return json.loads(done.stdout.splitlines()[-1])


def processor_seconds(parent: int) -> float:
    """Return the processor time of a process and of its children, in seconds."""
    children = Path(f"/proc/{parent}/task/{parent}/children").read_text().split()
    total = 0.0
    for pid in [str(parent), *children]:
        fields = Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
        total += (int(fields[11]) + int(fields[12])) / TICKS
    return total


def ask(stack: Stack, cookie: str, method: str, path: str, body: bytes | None, headers: dict[str, str]) -> None:
    where = urlsplit(stack.url)
    connection = http.client.HTTPConnection(where.hostname or "", where.port, timeout=30)
    connection.request(method, path, body, {"Cookie": cookie, **headers})
    response = connection.getresponse()
    response.read()
    connection.close()
    if response.status >= 300:
        raise SystemExit(f"{method} {path} answered {response.status}: the run is worth nothing.")


def a_set(known: dict) -> bytes:
    now = datetime.now(UTC).isoformat()
    data = {"set": str(uuid.uuid4()), "session": known["session"], "exercise": known["exercise"], "number": 1}
    data |= {"load": 40, "unit": "kg", "reps": 10, "rir": 2}
    operation = {"id": str(uuid.uuid4()), "kind": "set.record", "at": now, "data": data}
    return json.dumps({"operations": [operation]}).encode()


def main() -> None:
    with (
        private_postgres() as database,
        private_redis() as redis,
        tempfile.TemporaryDirectory() as folder,
        running_stack(Path(folder), database, redis) as stack,
    ):
        print("Loading the demo ...", flush=True)
        stack.manage("load_demo")
        print(json.dumps(inside(stack, "sizes()"), indent=1))
        pages(stack)
        print(json.dumps(inside(stack, "recomputes()"), indent=1))


def pages(stack: Stack) -> None:
    """Print how many of each request a core answers in a second."""
    known = inside(stack, "doors()")
    token = {"X-CSRFToken": known["csrf"], "Content-Type": "application/json", "Referer": stack.url}
    asked = [
        ("a set from the phone", known["client"], "POST", "/api/v1/operations/", token),
        ("the client's day", known["client"], "GET", "/train/", {}),
        ("the session page", known["client"], "GET", f"/train/session/{known['session']}/", {}),
        ("the weekly board, 24 clients", known["coach"], "GET", "/week/", {}),
        ("a client's week", known["coach"], "GET", f"/clients/{known['client_id']}/", {}),
    ]
    web = stack.processes[0].pid
    for name, cookie, method, path, headers in asked:
        for rounds in (20, ROUNDS):  # the first ones warm up
            before = processor_seconds(web)
            for _ in range(rounds):
                ask(stack, cookie, method, path, a_set(known) if method == "POST" else None, headers)
            spent = processor_seconds(web) - before
        print(f"{name:32} {ROUNDS / spent:8.0f} requests a core-second ({1000 * spent / ROUNDS:.1f} ms)")


if __name__ == "__main__":
    main()
