"""A program from a spreadsheet, as a coach brings it in: with errors, mended on the page, saved; then handed out."""

import pytest
from allauth.account.models import EmailAddress
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from programs.handout.pdf import pdf_is_possible
from programs.models import Program
from tests.conftest import make_world
from tests.programs.factories import make_library

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

TABLE = """Week;Day;Pair;Exercise;Sets;Reps;RIR;Rest
1-3;Arms;A;Wand crul;3;08. Dez;1–2;1,5 min
;;A;Close push;;8–12;1–2;90
;Back;;Slow row;3-4;12-8;=2;
"""


@pytest.fixture
def world(transactional_db):
    people = make_world()
    people.library = make_library()
    user = people.coach
    EmailAddress.objects.get_or_create(user=user, defaults={"email": user.email, "verified": True, "primary": True})
    return people


def no_violations(page):
    found = Axe().run(page, options={"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"]})
    assert found.violations_count == 0, found.generate_report()


def test_a_table_with_errors_is_mended_and_becomes_a_program(desk, live_server, sign_in, world):
    sign_in(desk, world.coach)
    desk.goto(f"{live_server.url}/programs/")
    desk.get_by_role("link", name="Import", exact=True).click()
    file = {"name": "arms_plan.csv", "mimeType": "text/csv", "buffer": TABLE.encode("cp1252")}
    desk.get_by_label("A file:").set_input_files(file)
    desk.get_by_role("button", name="Read it").click()
    expect(desk.get_by_role("heading", level=1)).to_have_text("Not everything is right yet")
    expect(desk.locator(".import-cells tbody tr")).to_have_count(4)
    no_violations(desk)
    # Enter only looks again.
    desk.get_by_label("E3, Sets").press("Enter")
    expect(desk.get_by_label("F2, Reps")).to_have_value("08. Dez")
    # One button takes the spreadsheet's date back; the rest is typed where it stands.
    desk.get_by_role("button", name="Read them as ranges").click()
    expect(desk.locator(".import-cells tbody tr")).to_have_count(3)
    desk.get_by_label("Near names Wand crul").select_option("Wand curl")
    desk.get_by_label("E3, Sets").fill("3")
    desk.get_by_label("F4, Reps").fill("8–12")
    desk.get_by_label("G4, RIR").fill("2")
    desk.get_by_label("G4, RIR").press("Enter")
    expect(desk.get_by_role("heading", level=1)).to_have_text("All of it is right")
    assert not Program.objects.exists()
    no_violations(desk)
    desk.get_by_label("Name of the program").fill("Arms, brought in")
    desk.get_by_role("button", name="Save the program").click()
    expect(desk.get_by_role("heading", level=1)).to_have_text("Arms, brought in")
    [block] = Program.objects.get().document["blocks"]
    first, second = block["weeks"][2]["days"]
    assert [one["pair"] for one in first["slots"]] == ["A", "A"]
    assert (first["slots"][0]["reps"], first["slots"][0]["rest_s"]) == ([8, 12], 90)
    assert (second["slots"][0]["sets"], second["slots"][0]["rir"]) == ([3, 4], [2, 2])
    desk.get_by_role("link", name="Hand-out").click()
    expect(desk.locator(".paper h3").first).to_have_text("Weeks 1–3, each the same")
    no_violations(desk)
    if pdf_is_possible():
        with desk.expect_download() as download:
            desk.get_by_role("link", name="PDF", exact=True).click()
        assert download.value.suggested_filename == "arms-brought-in.pdf"
        expect(desk.locator("#pdf-status")).to_have_text("The PDF is made.")
