"""Private PostgreSQL and Redis servers for the tests, and the browser; each stops with the test run."""

import contextlib
import os
import pwd
import shutil
import socket
import subprocess
import tempfile
import time
from collections.abc import Iterator
from ctypes.util import find_library
from pathlib import Path

PACKAGES = {
    "postgres": "postgresql",
    "redis-server": "redis-server",
    "chromium": "chromium",
    # Chromium without the windows around its pages: quicker, but it sends nothing in the background.
    "chromium-headless-shell": "chromium-headless-shell",
    "node": "nodejs",
    "xgettext": "gettext",
    "pango": "libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0",
}
# Libraries that a program of ours loads, by the names that the loader knows.
LIBRARIES = {"pango": ("pango-1.0", "pangoft2-1.0", "harfbuzz-subset")}
BROWSERS = ("chromium", "chromium-browser", "google-chrome")


def find_program(name: str) -> str | None:
    """Return the path of a program, or the file of a library, looking also where Debian keeps PostgreSQL's own."""
    if name in LIBRARIES:
        found = [find_library(one) for one in LIBRARIES[name]]
        return found[0] if all(found) else None
    if name == "chromium":
        return next(filter(None, map(shutil.which, BROWSERS)), None)
    if name in ("postgres", "initdb", "createdb"):
        versions = sorted(Path("/usr/lib/postgresql").glob(f"*/bin/{name}"), key=lambda p: int(p.parts[-3]))
        if versions:
            return str(versions[-1])
    return shutil.which(name)


def install_program(name: str) -> str | None:
    """Install a missing program with apt as root; None when that cannot be done here."""
    if os.geteuid() != 0 or not shutil.which("apt-get"):
        return None
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    print(f"Installing {PACKAGES[name]} ...", flush=True)
    for command in (["apt-get", "update", "-qq"], ["apt-get", "install", "-y", "-qq", *PACKAGES[name].split()]):
        subprocess.run(command, env=environment, check=False, stdout=subprocess.DEVNULL)
    return find_program(name)


def port_is_taken(port: int) -> bool:
    """Say whether something on this machine listens on `port`."""
    with socket.socket() as probe:
        return probe.connect_ex(("127.0.0.1", port)) == 0


def spare_port() -> int:
    """Return a free port below the range from which the kernel picks outgoing ones, so that it stays free."""
    for port in range(20000 + os.getpid() % 8000, 32000):
        if not port_is_taken(port):
            with contextlib.suppress(OSError), socket.socket() as claim:
                claim.bind(("127.0.0.1", port))
                return port
    raise RuntimeError("No spare port between 20000 and 32000.")


def wait_for(port: int, process: subprocess.Popen[bytes], what: str, seconds: float = 20) -> None:
    """Return when `port` answers; RuntimeError when the process ended or time ran out."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if process.poll() is not None:
            raise RuntimeError(f"{what} ended at once with status {process.returncode}.")
        if port_is_taken(port):
            return
        time.sleep(0.05)
    raise RuntimeError(f"{what} did not answer on port {port} within {seconds:.0f} s.")


def stop(process: subprocess.Popen[bytes]) -> None:
    process.terminate()
    try:
        process.wait(10)
    except subprocess.TimeoutExpired:
        process.kill()
        process.wait()


@contextlib.contextmanager
def private_postgres() -> Iterator[str]:
    """Run a PostgreSQL of our own in a temporary folder; yield its database URL."""
    # PostgreSQL refuses to run as root: a person without rights runs it then.
    user = None
    if os.geteuid() == 0:
        names = {entry.pw_name for entry in pwd.getpwall()}
        user = "postgres" if "postgres" in names else "nobody"
    with tempfile.TemporaryDirectory(prefix="sinewright-pg-", ignore_cleanup_errors=True) as folder:
        if user:
            shutil.chown(folder, user)
        data = f"{folder}/data"
        quiet = {"stdout": subprocess.DEVNULL, "user": user, "cwd": folder}
        initdb = [find_program("initdb"), "-D", data, "-U", "sinewright", "--auth=trust", "-E", "UTF8", "--no-sync"]
        subprocess.run([*initdb, "--locale=C.UTF-8"], check=True, **quiet)
        port = spare_port()
        flags = [f"-cport={port}", "-clisten_addresses=127.0.0.1", f"-cunix_socket_directories={folder}", "-cfsync=off"]
        server = subprocess.Popen(
            [find_program("postgres"), "-D", data, *flags, "-cmax_connections=100"], stderr=subprocess.DEVNULL, **quiet
        )
        try:
            wait_for(port, server, "PostgreSQL")
            # The port answers a moment before queries do.
            time.sleep(0.5)
            yield f"postgres://sinewright@127.0.0.1:{port}/postgres"
        finally:
            stop(server)


@contextlib.contextmanager
def private_redis() -> Iterator[str]:
    """Run a Redis of our own that keeps nothing on disk; yield its URL."""
    with tempfile.TemporaryDirectory(prefix="sinewright-redis-") as folder:
        port = spare_port()
        command = [
            find_program("redis-server"),
            "--port",
            str(port),
            "--bind",
            "127.0.0.1",
            "--save",
            "",
            "--dir",
            folder,
        ]
        server = subprocess.Popen(command, stdout=subprocess.DEVNULL)
        try:
            wait_for(port, server, "Redis")
            yield f"redis://127.0.0.1:{port}/0"
        finally:
            stop(server)


def create_database(server: str, name: str) -> None:
    """Make an empty database on the `server` (a database URL)."""
    subprocess.run([find_program("createdb"), f"--maintenance-db={server}", name], check=True)
