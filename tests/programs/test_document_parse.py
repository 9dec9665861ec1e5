"""What `Program.document` may hold."""

import copy

import pytest

from programs.document import DocumentError, document_from_json, document_to_json
from tests.programs.factories import document, slot

GOOD = document([slot("s1", 1), slot("s2", 2, sets=[3, 4])], [slot("s3", 3)])


def test_a_document_is_written_as_it_was_read():
    assert document_to_json(document_from_json(GOOD)) == GOOD


def test_what_is_left_out_gets_the_usual_value():
    lean = {
        "blocks": [
            {"key": "b", "weeks": [{"key": "w", "days": [{"key": "d", "slots": [{"key": "s", "exercise": 7}]}]}]}
        ]
    }
    read = document_from_json(lean).blocks[0].weeks[0].days[0].slots[0]
    assert (read.sets, read.reps, read.rir, read.rest_s) == ((3, 3), (8, 12), (1, 2), 120)


SLOT = "blocks[0].weeks[0].days[0].slots[0]"


@pytest.mark.parametrize(
    ("field", "value", "path"),
    [
        ("sets", 0, f"{SLOT}.sets"),
        ("sets", [4, 3], f"{SLOT}.sets"),
        ("reps", [8, 101], f"{SLOT}.reps[1]"),
        ("reps", "8-12", f"{SLOT}.reps"),
        ("rir", [-1, 2], f"{SLOT}.rir[0]"),
        ("rest_s", True, f"{SLOT}.rest_s"),
        ("pair", "a", f"{SLOT}.pair"),
        ("pair", "AB", f"{SLOT}.pair"),
        ("note", "x" * 301, f"{SLOT}.note"),
        ("key", "not a key", f"{SLOT}.key"),
        ("key", "w1s2", "blocks[0].weeks[0].days[0].slots[1].key"),
        ("exercise", None, f"{SLOT}.exercise"),
        ("load", 50, SLOT),
    ],
)
def test_a_broken_field_is_named_by_its_path(field, value, path):
    broken = copy.deepcopy(GOOD)
    broken["blocks"][0]["weeks"][0]["days"][0]["slots"][0][field] = value
    with pytest.raises(DocumentError) as refused:
        document_from_json(broken)
    assert refused.value.path == path


@pytest.mark.parametrize("value", [None, [], {"blocks": {}}, {"blocks": [1]}, {"weeks": []}])
def test_another_shape_is_refused(value):
    with pytest.raises(DocumentError):
        document_from_json(value)


def test_a_week_of_eight_days_is_refused():
    with pytest.raises(DocumentError, match="7 is the most"):
        document_from_json(document(*[[] for _ in range(8)]))
