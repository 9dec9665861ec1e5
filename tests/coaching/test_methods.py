"""The methods pages are the repository's own files, readable by everyone and safe under the content policy."""

import pytest
from django.urls import reverse

from coaching.reads.methods import FOLDER, INDEX, methods, render

pytestmark = pytest.mark.django_db
TOPICS = sorted(path.stem for path in FOLDER.glob("*.md") if path.stem != INDEX)


def test_the_index_leads_to_every_page(client):
    html = client.get(reverse("methods")).content.decode()
    assert TOPICS
    for topic in TOPICS:
        assert f'href="{reverse("method", args=[topic])}"' in html


@pytest.mark.parametrize("topic", TOPICS)
def test_a_page_is_readable_without_sign_in(client, topic):
    response = client.get(reverse("method", args=[topic]))
    assert response.status_code == 200
    html = response.content.decode()
    assert methods()[topic].title in html
    assert "style=" not in html
    assert '.md"' not in html


def test_an_unknown_page_is_not_found(client):
    assert client.get(reverse("method", args=["alchemy"])).status_code == 404


def test_raw_html_and_style_attributes_do_not_come_through():
    html = render("# T\n\n<script>alert(1)</script>\n\n| a | b |\n|---|--:|\n| 1 | 2 |\n")
    assert "<script" not in html
    assert "style=" not in html
    assert '<td class="n">2</td>' in html
