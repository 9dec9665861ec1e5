"""Wherever averages of load over 7 and 28 days are shown, the dispute about their ratio is said."""

import re
from pathlib import Path

import pytest
from django.urls import reverse

from coaching.recompute import run
from tests.coaching import factories as make

ROOT = Path(__file__).resolve().parents[2]
AVERAGES = re.compile(r"acute|chronic|28.day|ewma", re.IGNORECASE)
DISPUTE = "coaching/parts/load_dispute.html"
# What computes and keeps the averages, and shows nothing.
KEEPERS = {"coaching/recompute/load_week.py"}
# Read by one module, shown by one template.
SHOWN_BY = {"coaching/plots/sessions.py": "templates/coaching/client_sessions.html"}


def showing():
    """Yield what could show them: templates, scripts of the pages, and what is read for pages and files."""
    for pattern in ("templates/**/*.html", "static/*/**/*.js", "coaching/**/*.py", "logbook/**/*.py"):
        for path in ROOT.glob(pattern):
            name = str(path.relative_to(ROOT))
            text = path.read_text(encoding="utf-8")
            if "vendor" not in name and "migrations" not in name and name not in KEEPERS and AVERAGES.search(text):
                yield name, text


def test_averages_are_shown_somewhere():
    assert "templates/coaching/parts/load.html" in dict(showing())


@pytest.mark.parametrize(("name", "text"), list(showing()), ids=lambda value: value if len(value) < 80 else "")
def test_who_shows_averages_says_the_dispute(name, text):
    if name in SHOWN_BY:
        text = (ROOT / SHOWN_BY[name]).read_text(encoding="utf-8")
    assert DISPUTE in text or name.endswith(DISPUTE)


@pytest.mark.django_db
def test_the_client_page_says_it_beside_the_numbers_and_shows_no_ratio(client, world):
    make.train(world.client, world.coach, make.make_catalogue(), weeks=5)
    run.work_off(world.client.pk)
    client.force_login(world.coach)
    html = client.get(reverse("client-page", args=[world.client.pk]), {"week": make.monday(1)}).content.decode()
    shown = html[html.index("Session load (description only)") :]
    assert "over 7 days" in shown
    assert "no ratio is shown" in shown[: shown.index("</details>")]
    assert "It does not say who will be hurt" in shown


@pytest.mark.django_db
def test_a_week_of_equal_days_says_that_monotony_is_not_defined(client, world):
    for day in range(7):
        make.begin(world.client, make.monday(1) + make.dt.timedelta(days=day))
    make.request(world.client, make.monday(1))
    run.work_off(world.client.pk)
    client.force_login(world.coach)
    html = client.get(reverse("client-page", args=[world.client.pk]), {"week": make.monday(1)}).content.decode()
    assert "Monotony is not defined for this week" in html
