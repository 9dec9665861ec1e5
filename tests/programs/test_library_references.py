"""References in readable form, from CSL-JSON."""

import pytest

from programs.services.library_references import authors, citations, place
from tests.programs.library_fixture import library_data

ITEM = {
    "id": "doe-2020",
    "title": "A title.",
    "author": [{"family": "Doe", "given": "Jane Q."}, {"family": "Roe", "given": "Anne-Marie"}],
    "container-title": "A Journal",
    "issued": {"date-parts": [[2020, 5]]},
    "volume": "23",
    "issue": "7",
    "page": "1240-1250",
    "DOI": "10.1000/x",
}


def test_a_reference_is_set_from_its_parts():
    [found] = citations([ITEM]).values()
    assert found.number == 1
    assert found.authors == "Doe JQ, Roe AM"
    assert (found.title, found.container, found.place) == ("A title", "A Journal", "2020;23(7):1240–1250")
    assert (found.label, found.url) == ("doi:10.1000/x", "https://doi.org/10.1000/x")


def test_numbers_follow_first_use_and_a_second_use_keeps_its_number():
    other = {**ITEM, "id": "b"}
    found = citations([other, ITEM, other])
    assert {key: item.number for key, item in found.items()} == {"b": 1, "doe-2020": 2}


@pytest.mark.parametrize(
    ("people", "said"),
    [
        ([], ""),
        ([{"family": "Doe"}], "Doe"),
        ([{"family": "Doe", "given": "J"}, {"literal": "and others"}], "Doe J and others"),
        ([{"literal": "A Society"}], "A Society"),
        ([{"family": f"N{n}", "given": "A"} for n in range(7)], "N0 A, N1 A, N2 A, N3 A, N4 A, N5 A and others"),
        ([{"family": f"N{n}", "given": "A"} for n in range(6)], "N0 A, N1 A, N2 A, N3 A, N4 A, N5 A"),
    ],
)
def test_authors_are_family_names_with_initials_and_at_most_six(people, said):
    assert authors(people) == said


@pytest.mark.parametrize(
    ("item", "said"),
    [
        ({}, ""),
        ({"issued": {"date-parts": [[2024]]}}, "2024"),
        ({"issued": {"date-parts": [[2024]]}, "volume": "3"}, "2024;3"),
        ({"issued": {"date-parts": [[2024]]}, "page": "e189"}, "2024:e189"),
        ({"volume": "3", "page": "1-2"}, "3:1–2"),
    ],
)
def test_missing_parts_are_left_out(item, said):
    assert place(item) == said


def test_only_web_addresses_become_links():
    [found] = citations([{"id": "x", "title": "T", "URL": "javascript:alert(1)"}]).values()
    assert found.url == ""


def test_every_reference_of_the_library_can_be_read_and_followed():
    found = citations(library_data().references)
    assert len(found) == len(library_data().references)
    assert all(item.authors and item.title and item.container and item.place and item.url for item in found.values())
