"""What the README says of the project is so."""

import json
import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def required(name: str) -> set[str]:
    lines = (ROOT / name).read_text(encoding="utf-8").splitlines()
    return {re.split(r"[\[=]", line)[0] for line in lines if line and line[0] not in "#-"}


def test_every_dependency_is_pinned_and_says_what_it_is_for():
    table = README.split("## Dependencies")[1].split("## Licence")[0].lower()
    for name in sorted(required("requirements.txt") | required("requirements-dev.txt")):
        assert name.lower() in table, f"{name} is not in the README's table of dependencies"
    for file in ("requirements.txt", "requirements-dev.txt"):
        for line in (ROOT / file).read_text(encoding="utf-8").splitlines():
            assert not line or line[0] in "#-" or "==" in line, f"{line} is not pinned"


def test_every_browser_file_has_its_licence_beside_it_and_is_named():
    notice = (ROOT / "NOTICE").read_text(encoding="utf-8")
    for entry in json.loads((ROOT / "static/vendor/versions.json").read_text(encoding="utf-8")):
        assert (ROOT / "static/vendor" / entry["folder"] / "LICENSE").stat().st_size > 100
        assert f"static/vendor/{entry['folder']}/" in notice


def test_links_and_pictures_of_the_readme_and_handbook_are_there():
    for page in (ROOT / "README.md", ROOT / "DEVELOPERS.md", *(ROOT / "docs").rglob("*.md")):
        for target in re.findall(r"\]\(([^)#]+)[^)]*\)", page.read_text(encoding="utf-8")):
            if "://" not in target:
                assert (page.parent / target).exists(), f"{page.name} points at {target}"
