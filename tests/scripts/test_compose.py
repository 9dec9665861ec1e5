"""The production set-up: no container engine is needed to know that the file is right and that its commands run."""

import json
import os
import re
import subprocess
import sys
import time
from importlib import resources
from pathlib import Path
from urllib.request import Request, urlopen

import jsonschema
import pytest
import yaml

from coaching.listening import QUEUES
from scripts.services import spare_port

ROOT = Path(__file__).resolve().parents[2]
COMPOSE = yaml.safe_load((ROOT / "docker-compose.yml").read_text(encoding="utf-8"))
LASTING = ("web", "worker", "worker-long", "beat")


def test_compose_file_follows_the_compose_specification():
    # Source: the Compose Specification's JSON schema, as the check-jsonschema package ships it.
    schema = resources.files("check_jsonschema") / "builtin_schemas/vendor/compose-spec.json"
    jsonschema.validate(COMPOSE, json.loads(schema.read_text(encoding="utf-8")))


def test_every_lasting_service_has_a_health_check_and_restarts():
    for name, service in COMPOSE["services"].items():
        if name != "setup":
            assert service["healthcheck"]["test"][0] == "CMD", name
            assert service["restart"] == "unless-stopped", name


def test_volumes_that_are_used_are_declared():
    used = {line.split(":")[0] for s in COMPOSE["services"].values() for line in s.get("volumes", [])}
    assert used == set(COMPOSE["volumes"])


def test_variables_of_the_compose_file_stand_in_the_example():
    example = (ROOT / ".env.example").read_text(encoding="utf-8")
    for name in set(re.findall(r"\$\{(\w+)", (ROOT / "docker-compose.yml").read_text(encoding="utf-8"))):
        assert re.search(rf"^{name}=", example, re.M), name


def test_variables_of_the_example_are_read_by_the_settings():
    settings = (ROOT / "coaching" / "settings.py").read_text(encoding="utf-8")
    example = (ROOT / ".env.example").read_text(encoding="utf-8")
    for name in re.findall(r"^#?SINEWRIGHT_(\w+)=", example, re.M):
        assert f'"{name}"' in settings, name


def test_image_runs_without_root_rights_and_copies_every_room():
    dockerfile = (ROOT / "Dockerfile").read_text(encoding="utf-8")
    assert re.search(r"^USER sinewright$", dockerfile, re.M)
    for room in ("accounts", "coaching", "demo", "logbook", "periodization", "programs", "templates", "static", "docs"):
        assert re.search(rf"^COPY .* {room} {room}$", dockerfile, re.M), room


def queues_of(name: str) -> list[str]:
    command = COMPOSE["services"][name]["command"]
    return command[command.index("-Q") + 1].split(",")


def test_each_queue_has_a_worker_and_what_takes_long_has_its_own():
    commands = {name: service.get("command", []) for name, service in COMPOSE["services"].items()}
    workers = {name: queues_of(name) for name, command in commands.items() if "worker" in command}
    assert workers == {"worker": ["celery"], "worker-long": ["long"]}
    assert {name for names in workers.values() for name in names} == set(QUEUES)


@pytest.mark.services
@pytest.mark.timeout(600)
def test_each_service_runs_and_reports_health_against_real_services(tmp_path, clean_database, redis_url):
    """Run setup, web, both workers and beat by their own commands, and their own health checks."""
    port = spare_port()
    environment = {
        **os.environ,
        "PATH": f"{Path(sys.executable).parent}:{os.environ['PATH']}",
        "SINEWRIGHT_MODE": "production",
        "SINEWRIGHT_SECRET_KEY": "x" * 50,
        "SINEWRIGHT_ALLOWED_HOSTS": "train.example.org",
        "SINEWRIGHT_BASE_URL": "https://train.example.org",
        "SINEWRIGHT_DATABASE_URL": clean_database,
        "SINEWRIGHT_REDIS_URL": redis_url,
        "SINEWRIGHT_DATA_DIR": str(tmp_path),
        "SINEWRIGHT_STATIC_ROOT": str(tmp_path / "static"),
        "SINEWRIGHT_RECOMPUTE_SWEEP_S": "1",
    }
    environment.pop("DJANGO_SETTINGS_MODULE", None)

    def command(name: str) -> list[str]:
        return [word.replace("0.0.0.0:8000", f"127.0.0.1:{port}") for word in COMPOSE["services"][name]["command"]]

    def healthy(name: str) -> subprocess.CompletedProcess[str]:
        check = COMPOSE["services"][name]["healthcheck"]["test"][1:]
        more = ["--port", str(port)] if name == "web" else []
        return subprocess.run([*check, *more], cwd=ROOT, env=environment, capture_output=True, text=True)

    def workers() -> dict[str, str]:
        request = Request(f"http://127.0.0.1:{port}/health/", headers={"Host": "train.example.org"})
        with urlopen(request, timeout=5) as response:
            return json.load(response)["workers"]

    assert healthy("web").returncode != 0
    for build in (["python", "manage.py", "collectstatic", "--noinput", "-v0"], command("setup")):
        subprocess.run(build, cwd=ROOT, env=environment, check=True, capture_output=True)
    processes = {}
    try:
        for name in LASTING:
            log = (tmp_path / f"{name}.log").open("wb")
            processes[name] = subprocess.Popen(command(name), cwd=ROOT, env=environment, stdout=log, stderr=log)
        for name, process in processes.items():
            end = time.monotonic() + 120
            while (result := healthy(name)).returncode and time.monotonic() < end:
                assert process.poll() is None, (tmp_path / f"{name}.log").read_text()
                time.sleep(1)
            assert result.returncode == 0, f"{name}: {result.stderr}\n{(tmp_path / f'{name}.log').read_text()}"
        assert workers() == {"celery": "ok", "long": "ok"}
        # The other worker's health is not taken for one's own.
        processes["worker-long"].terminate()
        processes["worker-long"].wait(20)
        assert healthy("worker-long").returncode != 0
        assert healthy("worker").returncode == 0
    finally:
        for process in processes.values():
            process.terminate()
        for process in processes.values():
            process.wait(20)
