"""Letters and their subjects are translatable, too, and so are the headings of files that people open."""

import datetime as dt
import re

import pytest
from django.core import mail
from django.utils.translation import override

from accounts.services.invitation import invitation_create
from coaching.letters.send import letter
from coaching.models import WeeklyLetter
from coaching.plots.ask import read_ask
from coaching.plots.file import csv_file
from coaching.plots.pages import own_sheet
from tests.words.pseudo import CODE
from tests.words.visible import outside, untranslated, words

ADDRESS = re.compile(r"https?://\S+|\S+@\S+")


def left(text: str, *known: str) -> list[str]:
    """Return the lines that say something outside the brackets."""
    said = ADDRESS.sub(" ", outside(text)[0])
    return [line.strip() for line in said.splitlines() if words(line, ("testserver", *known))]


@pytest.fixture(autouse=True)
def spoken(pseudo_language):
    with override(CODE):
        yield


def html_of(made) -> str:
    return made.alternatives[0][0]


def test_invitation(world, django_capture_on_commit_callbacks):
    with django_capture_on_commit_callbacks(execute=True):
        invitation_create(
            inviter=world.coach_membership, kind="client", email="new@example.org", name="Nele", base_url="http://here"
        )
    (made,) = mail.outbox
    known = ("Rowan Yard Strength", "Carla", "Nele")
    assert left(made.subject, *known) == left(made.body, *known) == []
    assert list(untranslated(ADDRESS.sub(" ", html_of(made)), known)) == []


@pytest.mark.parametrize("kind", WeeklyLetter.Kind.values)
def test_letter_about_the_week(world, kind):
    made = letter(world.client.user, kind, dt.date(2026, 3, 2), {})
    assert left(made.subject) == left(made.body, "Clemens") == []
    assert list(untranslated(html_of(made), ["Clemens"])) == []


@pytest.mark.parametrize("email", ["clemens@example.org", "unknown@example.org"])
def test_letter_with_a_new_password(world, client, email):
    client.post("/account/password/reset/", {"email": email}, headers={"accept-language": CODE})
    (made,) = mail.outbox
    assert left(made.subject) == left(made.body) == []


def test_headings_of_a_file_of_numbers(world):
    for plot in own_sheet(read_ask(world.client, "kg", {}, at_desk=False)).plots:
        heading = csv_file(plot, "Clemens").content.decode().splitlines()[0]
        assert left(heading) == []
