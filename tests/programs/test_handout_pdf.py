"""Hand-outs as files. Where Pango is missing the page says so; with CI=true that is a failure here."""

import os
import re
import zlib

import pytest
from django.urls import reverse

from programs.handout import pdf
from programs.views import handout as views
from tests.programs.factories import make_library, make_program


@pytest.fixture
def program(world, db):
    return make_program(world, make_library(), name="Arme & mehr")


@pytest.fixture
def drawing():
    if not pdf.pdf_is_possible():
        if os.environ.get("CI") == "true":
            pytest.fail("no Pango, and CI=true: run scripts/test")
        pytest.skip("no Pango found: run scripts/test")


def opened(file: bytes) -> bytes:
    """Everything in the file, with what is packed unpacked."""
    packed = re.findall(rb"stream\r?\n(.*?)\r?\nendstream", file, re.DOTALL)
    return file + b"".join(zlib.decompressobj().decompress(one) for one in packed if one[:1] == b"x")


@pytest.mark.parametrize("paper", ["a4", "letter", "nonsense"])
def test_a_program_comes_as_a_file_of_the_chosen_paper(client, world, program, drawing, paper):
    client.force_login(world.coach)
    answer = client.get(reverse("program-handout-pdf", args=[program.pk]), {"paper": paper})
    assert answer["Content-Type"] == "application/pdf"
    assert answer["Content-Disposition"] == 'attachment; filename="arme-mehr.pdf"'
    assert answer.content.startswith(b"%PDF-")
    points = (b"612", b"792") if paper == "letter" else (b"595", b"841")
    assert set(re.findall(rb"/MediaBox ?\[0 0 (\d+)\S* (\d+)", opened(answer.content))) == {points}


@pytest.mark.parametrize("address", ["file:///etc/hostname", "http://127.0.0.1:9/x", "../../manage.py"])
def test_a_page_cannot_make_it_fetch_anything(drawing, address, caplog):
    with caplog.at_level("ERROR", logger="weasyprint"):
        assert pdf.make_pdf(f'<h1>A</h1><img src="{address}">', "a4").startswith(b"%PDF-")
    assert "not one of our own files" in caplog.text


def test_without_pango_the_page_says_how_to_get_a_file(client, world, program, monkeypatch):
    monkeypatch.setattr(views, "pdf_is_possible", lambda: False)
    client.force_login(world.coach)
    answer = client.get(reverse("program-handout-pdf", args=[program.pk]))
    assert answer.status_code == 409
    assert "Pango is missing" in answer.content.decode()
    monkeypatch.setattr(pdf, "pdf_is_possible", lambda: False)
    with pytest.raises(pdf.NoPdf):
        pdf.make_pdf("<h1>A</h1>", "a4")
